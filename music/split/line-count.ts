import { mostLines, type Texture } from './texture.ts';

/** As many lines as sound for this share of the time. */
const steadyShare = 0.93;
/** Two notes that sound together for this share of the time are two lines. */
const pairedShare = 0.15;
/** As many lines as are independent for this share of the time; from four on the smaller share will do, for chords are hardly ever so. */
const independentShare = 0.07;
const manyIndependentShare = 0.03;
/** Below this share of independent time, lengths tell nothing: tablature rhythm, or chords throughout. */
const blockShare = 0.02;
/** There, as many lines as begin together at this share of the moments; larger chords must be more frequent. */
const struckShare = 0.05;
const manyStruckShare = 0.1;

interface Shares {
  readonly sounding: number;
  readonly independent: number;
  readonly persistent: number;
  readonly struck: number;
}

const sharesAt = (texture: Texture, count: number): Shares => ({
  sounding: texture.sounding[count] ?? 0,
  independent: texture.independent[count] ?? 0,
  persistent: texture.persistent[count] ?? 0,
  struck: texture.struck[count] ?? 0,
});

/** Three notes now and then over a texture of two that move on their own. */
function isThirdVoice(three: Shares, two: Shares): boolean {
  return two.independent >= 0.4 && three.persistent >= 0.05 && three.independent >= 0.12 * three.sounding;
}

/** Four notes or more that persist, with all but one of them independent where they are most: voices that are seldom all there. */
function isFurtherVoice(here: Shares, before: Shares, quarters: number, count: number): boolean {
  const persists = here.persistent >= 0.015 && here.persistent * quarters >= 3;
  const mayBeDoubled = count === 4 || here.independent > 0.0005;
  return persists && mayBeDoubled && before.independent >= 0.1 * before.sounding;
}

function speaksFor(texture: Texture, count: number): boolean {
  const here = sharesAt(texture, count);
  const before = sharesAt(texture, count - 1);
  if (here.sounding >= steadyShare) return true;
  if (sharesAt(texture, 2).independent < blockShare) return here.struck >= (count <= 4 ? struckShare : manyStruckShare);
  if (here.independent >= (count <= 3 ? independentShare : manyIndependentShare)) return true;
  if (count === 2) return here.sounding >= pairedShare;
  return count === 3 ? isThirdVoice(here, before) : isFurtherVoice(here, before, texture.quarters, count);
}

/** How many lines the texture speaks for: the largest number that sounds nearly always, moves on its own often enough, or persists where voices are independent. */
export function lineCountOf(texture: Texture): number {
  let lines = mostLines;
  while (lines > 1 && !speaksFor(texture, lines)) lines--;
  return lines;
}
