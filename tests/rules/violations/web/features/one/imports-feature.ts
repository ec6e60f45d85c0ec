export { twoThing } from '../two/thing.ts';
