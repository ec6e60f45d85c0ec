// `npm run build`: everything that `npm start` would build, without starting.
import { ensureBuilt, ensureInstalled } from './ensure.js';

ensureInstalled();
ensureBuilt();
