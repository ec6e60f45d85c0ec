// `npm run --silent heddle -- COMMAND FILE …`: readies what the command needs, then does it. stdout carries the answer alone.
import { ensureCommandBuilt, ensureInstalled, isInstalled } from './ensure.js';

if (!isInstalled()) ensureInstalled();
ensureCommandBuilt();
await import('../dist/command/main.js');
