import { splitTexts } from '../../same/split-text.ts';
import { shortHash } from '../short-hash.ts';

Object.assign(window, {
  splitHashes: Promise.all(splitTexts().map((text) => shortHash([new TextEncoder().encode(text)]))),
});
