import { limits } from '../limits.ts';

/** What one macro or one letter of the user's stands for. */
interface Replacement {
  readonly target: RegExp;
  /** For longer targets first. */
  readonly length: number;
  readonly textFor: (match: readonly string[]) => string;
}

/** A line after replacement; `columnAt` tells where in the line as written a column of it came from. **Units** columns from 1. */
export interface ReplacedLine {
  readonly text: string;
  readonly columnAt: (column: number) => number;
}

const scale = 'CDEFGAB';

/** The note so many steps above another, both as letters with octave marks. */
function stepsAbove(note: string, steps: number): string {
  const letter = note.charAt(0).toUpperCase();
  const marks = note.slice(1);
  const ownRow = (letter === note.charAt(0) ? 0 : 1) + marks.split("'").length - marks.split(',').length;
  const height = scale.indexOf(letter) + 7 * ownRow + steps;
  const row = Math.floor(height / 7);
  const name = scale.charAt(height - 7 * row);
  return row > 0 ? `${name.toLowerCase()}${"'".repeat(row - 1)}` : `${name}${','.repeat(-row)}`;
}

const literal = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|]/g, String.raw`\$&`);

/** In a transposing macro `n` is the note that was found and `h` to `z` are the notes around it, a step apart. */
function transposing(target: string, text: string): Replacement {
  const [before = '', after = ''] = target.split('n');
  const n = 'n'.charCodeAt(0);
  return {
    target: new RegExp(`${literal(before)}([A-Ga-g][',]*)${literal(after)}`, 'y'),
    length: target.length,
    textFor: ([, note = 'C']) => text.replace(/[h-z]/g, (letter) => stepsAbove(note, letter.charCodeAt(0) - n)),
  };
}

const fixed = (target: string, text: string): Replacement => ({
  target: new RegExp(literal(target), 'y'),
  length: target.length,
  textFor: () => text,
});

/** Passed over as they are: words, decorations by name, fields and comments. */
const untouched = /"[^"]*"|![^!\s|]+!|\[[A-Za-z]:[^\]]*\]|%.*/y;

/** Macros and letters of the user's own in force. **Source** ABC 2.1, m: macros and U: user defined, from memory. */
export class Replacements {
  private readonly known = new Map<string, Replacement>();
  private ordered: readonly Replacement[] = [];
  private addedLetters = 0;

  private put(name: string, replacement: Replacement | null): void {
    if (replacement === null) this.known.delete(name);
    else this.known.set(name, replacement);
    this.ordered = [...this.known.values()].sort((a, b) => b.length - a.length);
  }

  /** Takes in an m: field; false where it is none. */
  define(field: string): boolean {
    const [, target = '', text = ''] = /^\s*([^=\s]+)\s*=\s*(.*?)\s*$/.exec(field) ?? [];
    if (target === '' || target.length > 31) return false;
    const isTransposing = target.split('n').length === 2;
    this.put(target, isTransposing ? transposing(target, text) : fixed(target, text));
    return true;
  }

  /** Takes in a U: field; false where it is none. `!nil!` takes the letter's meaning away. */
  defineLetter(field: string): boolean {
    const [, letter = '', text = ''] = /^\s*([H-Wh-w~])\s*=\s*(".*"|!.*!|\+.*\+)\s*$/.exec(field) ?? [];
    if (letter === '') return false;
    const isNothing = /^[!+](nil|none)[!+]$/.test(text);
    this.put(letter, fixed(letter, isNothing ? '' : text));
    return true;
  }

  private at(text: string, at: number): { readonly length: number; readonly text: string } | null {
    for (const { target, textFor } of this.ordered) {
      target.lastIndex = at;
      const match = target.exec(text);
      if (match !== null) return { length: match[0].length, text: textFor(match) };
    }
    return null;
  }

  /** A line of music with everything replaced, once. Null where that would grow beyond what a file may hold. */
  applied(text: string): ReplacedLine | null {
    if (this.ordered.length === 0) return { text, columnAt: (column) => column };
    const columns: number[] = [];
    let result = '';
    const put = (piece: string, from: number, isOwn: boolean): void => {
      for (let index = 0; index < piece.length; index += 1) columns.push(isOwn ? from + index + 1 : from + 1);
      result += piece;
    };
    for (let at = 0; at < text.length;) {
      untouched.lastIndex = at;
      const whole = untouched.exec(text)?.[0];
      const found = whole === undefined ? this.at(text, at) : null;
      if (found === null) put(whole ?? text.charAt(at), at, true);
      else {
        this.addedLetters += found.text.length;
        if (this.addedLetters > limits.bars * 50) return null;
        put(found.text, at, false);
      }
      at += found?.length ?? whole?.length ?? 1;
    }
    return { text: result, columnAt: (column) => columns[column - 1] ?? column };
  }
}
