export { webThing } from '../web/thing.ts';
