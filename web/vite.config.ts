import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const apiAddress = process.env['HEDDLE_API'] ?? 'http://localhost:4710';

export default defineConfig({
  root: here('.'),
  plugins: [react()],
  build: {
    outDir: here('../dist/web'),
    emptyOutDir: true,
    // light-dark() stays as written, so that paper can be light within a dark page.
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'],
    chunkSizeWarningLimit: 1600,
    // music/ and contract/ only declare; a screen that wants two of their functions must not fetch all of them.
    rolldownOptions: {
      treeshake: { moduleSideEffects: (id) => !/\/(music|contract)\//.test(id) || id.includes('node_modules') },
    },
  },
  // The audio worklet takes the sound engine alone out of music/: what it does not call is left out.
  // Encoders of sound files are fetched by their worker when first needed, hence modules.
  worker: {
    format: 'es',
    rolldownOptions: { treeshake: { moduleSideEffects: (id) => id.includes('node_modules') } },
  },
  server: {
    proxy: {
      '/api': { target: apiAddress },
      '/healthz': { target: apiAddress },
      '/socket': { target: apiAddress, ws: true },
    },
  },
});
