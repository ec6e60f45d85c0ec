import { thing } from '../measure/thing.ts';

export const measured = thing;
