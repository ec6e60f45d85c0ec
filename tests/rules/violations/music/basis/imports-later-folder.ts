export { scoreThing } from '../score/thing.ts';
