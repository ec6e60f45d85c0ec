// `npm run --silent heddle -- COMMAND FILE …`: readies what the command needs, then does it. stdout carries the answer alone.
import { standWhereCalled } from './caller-folder.js';
import { ensureCommandBuilt, ensureInstalled, isInstalled } from './ensure.js';

if (!isInstalled()) ensureInstalled();
ensureCommandBuilt();
standWhereCalled('heddle');
await import('../dist/command/main.js');
