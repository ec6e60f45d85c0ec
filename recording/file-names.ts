import type { Line } from '../music/index.ts';
import type { FileSource } from './record-sound.ts';
import type { SoundFormat } from './sound-format.ts';

const stemOfWords = (words: string): string =>
  words
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);

const others = { mix: 'mix', loose: 'notes-on-no-line', click: 'click' } as const;

/** What each file is called: the mix, each line by its letter and name, the notes on no line, the click. No two names are alike. */
export function soundFileNames(lines: readonly Line[], format: SoundFormat): (source: FileSource) => string {
  const names = new Map<FileSource, string>(
    (Object.keys(others) as (keyof typeof others)[]).map((source) => [source, others[source]] as const),
  );
  for (const line of lines) {
    const plain = stemOfWords(`${line.letter} ${line.name}`) || 'line';
    const taken = new Set(names.values());
    let name = plain;
    for (let count = 2; taken.has(name); count += 1) name = `${plain}-${count}`;
    names.set(line.id, name);
  }
  return (source) => `${names.get(source) ?? 'line'}.${format}`;
}
