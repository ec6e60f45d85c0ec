import type { LessonStep } from '../../contract/index.ts';
import type { Score } from '../../music/index.ts';
import { echo, fade, hear, path, reveal } from './path-steps.ts';
import { phrase } from './places.ts';
import type { DemoLines } from './demo-lines.ts';

const welcome = `## Put the guitar down

For the next ten minutes you only need your ears and your voice.

On the page this tune is a pile of notes. You will take one thread at a time out of the pile: hear it, sing it, then put it back. Only after that do your fingers get their turn.

Sing softly, on any vowel, in any octave that is comfortable. Nobody is judging tone here. If your throat or your hands begin to hurt, stop and rest.`;

const whatYouHeard = `## What you have just heard

The melody leaps a third, holds, and steps down again: first from F♯, then from G. In the answer it will come from A and leap further. The bass stays out of its way. It moves where the melody holds.

The middle voice fills the gaps. It starts after the beat, so that you hear three players rather than one chord.`;

const nowPlay = `## Now play it

1. Play the **bass** alone with your thumb while you *sing the melody*. Slow is fine. If you lose the tune, sing it once without the guitar.
2. Play the **melody** alone and let each long note last until the next one. The leap comes before the third beat, not on it.
3. Put the two together. Leave the middle voice out until you can hear the bass move *under* the held melody notes.
4. Add the middle voice, softer than you think.

The sixth string is tuned down to D. Give your ear a minute with it before you start.`;

const close = `## Before you stop

Play the eight bars once more and listen to the line you like least. It is usually the one your fingers forget.

Five minutes twice a day teach your ear more than half an hour once a week.`;

/** The first lesson: the opening tune of *The Weir at Low Water*, taken apart and put together again. */
export function firstLessonSteps(score: Pick<Score, 'bars'>, lines: DemoLines): LessonStep[] {
  const { melody, middle, bass } = lines;
  const three = [melody, middle, bass];
  return [
    { kind: 'text', id: 'welcome', text: welcome },
    {
      kind: 'listen',
      id: 'call',
      title: 'The first phrase, one line at a time',
      excerpt: phrase(score, ['0', 1], ['4', 4]),
      tempoPercent: 80,
      mixes: [],
      path: path('call', [
        hear('Everybody, once, without working at it', three, 'threaded'),
        hear('The bass alone', [bass]),
        echo('Sing the bass back', [bass]),
        hear('The melody alone', [melody]),
        echo('Sing the melody back', [melody]),
        reveal('Sing the melody from its first note', melody),
        hear('Melody and bass: who moves when?', [melody, bass]),
        hear('The middle voice alone', [middle]),
        hear('Melody and middle voice', [melody, middle]),
        hear('Everybody, melody forward', three, 'threaded', melody),
        fade('Keep singing while the melody fades', three, melody, 4),
      ]),
    },
    { kind: 'text', id: 'heard', text: whatYouHeard },
    {
      kind: 'listen',
      id: 'answer',
      title: 'The answer',
      excerpt: phrase(score, ['4', 4], ['8', 4]),
      tempoPercent: 80,
      mixes: [],
      path: path('answer', [
        hear('The melody climbs to its highest note', [melody]),
        echo('Sing it back', [melody]),
        hear('The bass walks home', [bass]),
        echo('Sing the bass back', [bass]),
        hear('Both', [melody, bass], 'writtenOut'),
        hear('Everybody, bass forward', three, 'threaded', bass),
      ]),
    },
    { kind: 'text', id: 'play', text: nowPlay },
    {
      kind: 'listen',
      id: 'whole',
      title: 'Play along',
      excerpt: phrase(score, ['0', 1], ['8', 4]),
      tempoPercent: 70,
      mixes: [],
      path: path('whole', [
        hear('Bass and middle voice; you play the melody', [middle, bass], 'stacked'),
        hear('Melody and middle voice; you play the bass', [melody, middle], 'stacked'),
        hear('Everybody', three, 'threaded'),
      ]),
    },
    { kind: 'text', id: 'close', text: close },
  ];
}
