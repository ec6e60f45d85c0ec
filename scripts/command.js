// `npm run backup`, `npm run restore`, `npm run sign-in-link`: readies the checkout, then runs the command of that name.
import { ensureBuilt, ensureInstalled } from './ensure.js';

const [name] = process.argv.splice(2, 1);
ensureInstalled();
ensureBuilt();
await import(`../dist/launch/commands/${name}.js`);
