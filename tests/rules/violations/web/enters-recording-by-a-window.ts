import { thing } from '../recording/thing.ts';

export const other = thing;
