import type { LessonStep } from '../../contract/index.ts';
import type { Score } from '../../music/index.ts';
import type { DemoLines } from './demo-lines.ts';
import { echo, fade, hear, path, reveal } from './path-steps.ts';
import { phrase } from './places.ts';

const opening = `## Four at once

You know this tune. In section F it comes back with everybody moving: the bass walks, the middle voice runs in eighths, and your hand taps on two, on the *and* of three, and on four.

Nobody can follow four lines at once. What you can do is choose one and let the others go on without you. That is what this lesson is for.`;

const swap = `## Change seats

Go through the list again and follow a line that you did *not* follow the first time. Most players know the melody best and the middle voice least, so begin there.`;

const hands = `## Then the hands

- **Taps first.** Tap the pattern on your knee while the bass plays. When it runs by itself, move it to the guitar: the side of the thumb on a string that is not sounding.
- **Bass and taps.** Four bars, slowly, until the tap no longer shifts the bass.
- **Melody on top.** Sing it before you play it.
- **Middle voice last.** Drop notes rather than time. A missing note is heard less than a late one.

Shake out your hands between rounds. If a stretch hurts, leave the note out; the line goes on without it.`;

/** The second lesson, still a draft: the passage of *The Weir at Low Water* in which all four lines move. */
export function secondLessonSteps(score: Pick<Score, 'bars'>, lines: DemoLines): LessonStep[] {
  const { melody, middle, bass, taps } = lines;
  const everybody = [melody, middle, bass, taps];
  return [
    { kind: 'text', id: 'opening', text: opening },
    {
      kind: 'listen',
      id: 'four',
      title: 'From the ground up',
      excerpt: phrase(score, ['43', 4], ['47', 4]),
      tempoPercent: 70,
      mixes: [],
      path: path('four', [
        hear('The taps alone', [taps]),
        hear('The bass alone', [bass]),
        echo('Sing the walking bass back', [bass]),
        hear('Taps and bass together', [bass, taps]),
        hear('The melody over both', [melody, bass, taps]),
        hear('The middle voice alone', [middle]),
        echo('Sing the middle voice back, slowly', [middle]),
        hear('Melody and middle voice: who leads?', [melody, middle], 'writtenOut'),
        hear('Everybody, middle voice forward', everybody, 'threaded', middle),
        hear('Everybody', everybody, 'threaded'),
      ]),
    },
    { kind: 'text', id: 'swap', text: swap },
    {
      kind: 'listen',
      id: 'deceptive',
      title: 'Where it does not end',
      excerpt: phrase(score, ['47', 4], ['53', 4]),
      tempoPercent: 70,
      mixes: [],
      path: path('deceptive', [
        hear('The bass alone: in bar 51 it steps up instead of coming home', [bass]),
        reveal('Sing the bass from its first note', bass),
        hear('Melody and bass', [melody, bass]),
        fade('Hold the melody while it fades', everybody, melody, 3),
      ]),
    },
    { kind: 'text', id: 'hands', text: hands },
  ];
}
