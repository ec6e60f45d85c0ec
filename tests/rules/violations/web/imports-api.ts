export { apiThing } from '../api/thing.ts';
