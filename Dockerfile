# Two images out of one build: `api` runs the server, `web` serves the pages and hands everything else on.
FROM node:20-bookworm-slim AS build
WORKDIR /heddle
COPY package.json package-lock.json .npmrc ./
RUN npm ci --include=dev --ignore-scripts --no-audit --no-fund
COPY . .
RUN npm run build && npm prune --omit=dev --ignore-scripts --no-audit --no-fund

FROM node:20-bookworm-slim AS api
WORKDIR /heddle
ENV NODE_ENV=production HOST=0.0.0.0 PORT=4710
COPY --from=build /heddle/package.json ./
COPY --from=build /heddle/node_modules node_modules
COPY --from=build /heddle/dist dist
USER node
EXPOSE 4710
HEALTHCHECK --interval=10s --timeout=3s --start-period=20s \
  CMD ["node", "-e", "fetch('http://127.0.0.1:4710/healthz').then((answer) => process.exit(answer.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "--enable-source-maps", "dist/api/main.js"]

FROM caddy:2 AS web
COPY --from=build /heddle/dist/web /srv/web
COPY docs/deployment/Caddyfile /etc/caddy/Caddyfile
