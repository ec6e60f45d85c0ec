export { appThing } from '../../app/thing.ts';
