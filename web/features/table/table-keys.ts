/** What a key asks for at the splitting table. */
export type TableKey =
  | { readonly kind: 'line'; readonly index: number; readonly adds: boolean }
  | {
      readonly kind:
        | 'unassign'
        | 'lift'
        | 'solo'
        | 'mute'
        | 'forward'
        | 'nextMix'
        | 'play'
        | 'playSelection'
        | 'playFrom'
        | 'stroke'
        | 'spread'
        | 'nextOpen'
        | 'accept'
        | 'follow'
        | 'same'
        | 'nextFinding'
        | 'undo'
        | 'redo'
        | 'letGo'
        | 'help';
    };

interface Pressed {
  readonly key: string;
  readonly code: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

const simple: Readonly<Record<string, TableKey>> = {
  '0': { kind: 'unassign' },
  Backspace: { kind: 'unassign' },
  Delete: { kind: 'unassign' },
  l: { kind: 'lift' },
  h: { kind: 'solo' },
  m: { kind: 'mute' },
  b: { kind: 'forward' },
  x: { kind: 'nextMix' },
  ' ': { kind: 'play' },
  p: { kind: 'playSelection' },
  g: { kind: 'playFrom' },
  n: { kind: 'nextOpen' },
  y: { kind: 'accept' },
  f: { kind: 'follow' },
  d: { kind: 'same' },
  c: { kind: 'nextFinding' },
  Escape: { kind: 'letGo' },
  '?': { kind: 'help' },
};

/** The deed of a key, or null where the key is not the table's. */
export function tableKeyOf(event: Pressed): TableKey | null {
  const isCommand = event.ctrlKey || event.metaKey;
  if (isCommand && !event.altKey) {
    if (event.key.toLowerCase() === 'z') return { kind: event.shiftKey ? 'redo' : 'undo' };
    return event.key.toLowerCase() === 'y' ? { kind: 'redo' } : null;
  }
  if (event.altKey) return null;
  const digit = /^(?:Digit|Numpad)([1-9])$/.exec(event.code)?.[1];
  if (digit !== undefined) return { kind: 'line', index: Number(digit) - 1, adds: event.shiftKey };
  if (event.key.toLowerCase() === 's') return { kind: event.shiftKey ? 'spread' : 'stroke' };
  return simple[event.key.length === 1 ? event.key.toLowerCase() : event.key] ?? null;
}

/** The keys in words, for the slip that lists them. */
export const keyWords: readonly (readonly [string, string])[] = [
  ['← →', 'the note before or after on the same line'],
  ['↑ ↓', 'higher or lower in what starts together'],
  ['Alt ← →', 'the moment before or after'],
  ['Enter', 'put the note on the chosen line'],
  ['1 to 9', 'put it, or what is chosen, on that line; with nothing chosen, choose the line'],
  ['Shift and 1 to 9', 'put it on that line as well'],
  ['0 or Backspace', 'take it off its lines'],
  ['N', 'go to the next note that is on no line or unsure'],
  ['Y', 'it is right as it is; then go to the next such note'],
  ['F', 'let the ringed notes follow'],
  ['D', 'do the same in the bars like this one: once to see where, again to do it'],
  ['C', 'go to the next thing worth checking'],
  ['L', 'lift the line away from the others'],
  ['H', 'hear the line alone'],
  ['M', 'mute the line'],
  ['B', 'bring the line forward'],
  ['X', 'hear the next of the named mixes'],
  ['Space', 'play and stop'],
  ['P', 'play what is chosen'],
  ['G, or click twice', 'play on from the note'],
  ['S', 'hear all that starts with the note, at one stroke'],
  ['Shift S', 'hear the same spread out, from low to high'],
  ['Ctrl Z, Ctrl Shift Z', 'take back, do again'],
  ['Esc', 'let go of what is chosen'],
];
