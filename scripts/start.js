// `npm start`: install, build, database, demo, server; everything that it starts ends with it.
import { ensureBuilt, ensureInstalled } from './ensure.js';

ensureInstalled();
ensureBuilt();
await import('../dist/launch/start.js');
