export { scoreThing } from '../music/score/thing.ts';
