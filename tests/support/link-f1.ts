/** The part of a note that the metric looks at. */
export interface LinkedNote {
  readonly onsetTicks: number;
}

/** Every pair of neighbours in time within one voice; where a voice strikes several notes at once, each is linked to each of the next moment. */
function linksOf(notes: readonly LinkedNote[], voiceOf: readonly unknown[]): ReadonlySet<string> {
  const inTime = notes.map((_, index) => index).sort((a, b) => notes[a]!.onsetTicks - notes[b]!.onsetTicks || a - b);
  const moments = new Map<unknown, number[][]>();
  for (const index of inTime) {
    const ofVoice = moments.get(voiceOf[index]) ?? [];
    const last = ofVoice.at(-1);
    if (last !== undefined && notes[last[0]!]!.onsetTicks === notes[index]!.onsetTicks) last.push(index);
    else ofVoice.push([index]);
    moments.set(voiceOf[index], ofVoice);
  }
  const links = new Set<string>();
  for (const ofVoice of moments.values())
    for (const [place, moment] of ofVoice.entries())
      for (const from of place === 0 ? [] : ofVoice[place - 1]!) for (const to of moment) links.add(`${from}-${to}`);
  return links;
}

/**
 * The harmonic mean of precision and recall over the links between neighbours of one voice; 1 where neither side has any.
 * **Source** Karystinaios, Foscarin and Widmer, Musical Voice Separation as Link Prediction, IJCAI 2023, section on evaluation.
 */
export function linkF1(notes: readonly LinkedNote[], truth: readonly unknown[], found: readonly unknown[]): number {
  const trueLinks = linksOf(notes, truth);
  const foundLinks = linksOf(notes, found);
  if (trueLinks.size + foundLinks.size === 0) return 1;
  const shared = [...foundLinks].filter((link) => trueLinks.has(link)).length;
  return (2 * shared) / (trueLinks.size + foundLinks.size);
}
