import { pitched, struck } from './play.js';

const string = (number) => ({ string: number });
const after = (seconds, more = {}) => ({ onsetSeconds: seconds, note: 'n2', ...more });

/** Every kind of sound: what it is called, what is played, how much of it is shown, and at which pitch it should be. */
export const catalogue = [
  {
    name: 'steel-low',
    title: 'Steel string, low (E2)',
    midi: 40,
    seconds: 4,
    events: [pitched('steel', 40, 'pluck', string(6))],
  },
  {
    name: 'steel-high',
    title: 'Steel string, high (E4)',
    midi: 64,
    seconds: 3,
    events: [pitched('steel', 64, 'pluck', string(1))],
  },
  {
    name: 'nylon-low',
    title: 'Nylon string, low (E2)',
    midi: 40,
    seconds: 4,
    events: [pitched('nylon', 40, 'pluck', string(6))],
  },
  {
    name: 'nylon-high',
    title: 'Nylon string, high (E4)',
    midi: 64,
    seconds: 3,
    events: [pitched('nylon', 64, 'pluck', string(1))],
  },
  {
    name: 'bass',
    title: 'Bass, as low as dropped tunings go (B1)',
    midi: 35,
    seconds: 4,
    events: [pitched('bass', 35)],
  },
  { name: 'hum', title: 'Hum (A3)', midi: 57, seconds: 3, events: [pitched('hum', 57, 'pluck', { ringSeconds: 2 })] },
  {
    name: 'palm-mute',
    title: 'Palm mute (A2)',
    midi: 45,
    seconds: 1,
    events: [pitched('steel', 45, 'palmMute', string(5))],
  },
  {
    name: 'harmonic',
    title: 'Harmonic over the 12th fret of the A string (A3)',
    midi: 57,
    seconds: 4,
    events: [pitched('steel', 57, 'harmonic', string(5))],
  },
  { name: 'dead-string', title: 'Dead string (A2)', seconds: 0.5, events: [pitched('steel', 45, 'dead', string(5))] },
  {
    name: 'legato',
    title: 'Plucked A3, hammered on to B3, pulled off again',
    seconds: 2,
    events: [
      pitched('steel', 57, 'pluck', { ...string(3), ringSeconds: 0.5 }),
      pitched('steel', 59, 'legato', { ...string(3), ...after(0.5), ringSeconds: 0.5 }),
      pitched('steel', 57, 'legato', { ...string(3), ...after(1), ringSeconds: 0.9 }),
    ],
  },
  {
    name: 'bend',
    title: 'A4 bent up a whole tone and let down',
    seconds: 2.5,
    events: [
      pitched('steel', 69, 'pluck', {
        ...string(2),
        glide: [
          { atSeconds: 0.5, cents: 0 },
          { atSeconds: 0.8, cents: 200 },
          { atSeconds: 1.4, cents: 200 },
          { atSeconds: 1.7, cents: 0 },
        ],
      }),
    ],
  },
  {
    name: 'slide',
    title: 'D3 slid to A3, which is not plucked',
    seconds: 2,
    events: [
      pitched('steel', 50, 'pluck', {
        ...string(5),
        ringSeconds: 0.8,
        glide: [
          { atSeconds: 0.6, cents: 0 },
          { atSeconds: 0.79, cents: 700 },
        ],
      }),
      pitched('steel', 57, 'legato', { ...string(5), ...after(0.8) }),
    ],
  },
  { name: 'body-low', title: 'Tap on the body, low', seconds: 0.6, events: [struck('lowBody')] },
  { name: 'body-high', title: 'Tap on the body, high', seconds: 0.6, events: [struck('highBody')] },
  { name: 'slap', title: 'Slap on the strings', seconds: 0.6, events: [struck('stringSlap')] },
  { name: 'muted-hit', title: 'Hit on muted strings', seconds: 0.6, events: [struck('deadNote')] },
  {
    name: 'click',
    title: 'Click: bar, beat, beat, beat',
    seconds: 1,
    clicks: [0, 0.25, 0.5, 0.75].map((atSeconds, index) => ({
      atSeconds,
      subdivisions: [1, 2, 3, 4],
      accent: index === 0 ? 'bar' : 'beat',
    })),
  },
];
