export { twoThing } from '../features/two/thing.ts';
