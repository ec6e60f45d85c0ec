export { contractThing } from '../contract/thing.ts';
