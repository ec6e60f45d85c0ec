import createVerovioModule from 'verovio/wasm';
import { enableLogToBuffer, VerovioToolkit } from 'verovio/esm';

/** When the heads of a document sound by verovio (an independent reader, https://www.verovio.org): for each head its playings in order. **Units** milliseconds, whole ones. */
export interface SecondTimeline {
  readonly onsets: ReadonlyMap<string, readonly number[]>;
  readonly ends: ReadonlyMap<string, readonly number[]>;
}

interface Entry {
  readonly tstamp: number;
  readonly on?: readonly string[];
  readonly off?: readonly string[];
}

let toolkit: Promise<VerovioToolkit> | null = null;

async function openToolkit(): Promise<VerovioToolkit> {
  const module = await createVerovioModule();
  enableLogToBuffer(true, module);
  const opened = new VerovioToolkit(module);
  opened.setOptions({ breaks: 'none', inputFrom: 'musicxml', expandAlways: true });
  return opened;
}

/** A head that is played again is renamed: n12, n12-rend2, n12-rend3. */
const plainId = (id: string): string => id.replace(/-rend\d+$/, '');

function byHead(
  entries: readonly Entry[],
  idsOf: (entry: Entry) => readonly string[] | undefined,
): Map<string, number[]> {
  const times = new Map<string, number[]>();
  for (const entry of entries)
    for (const id of idsOf(entry) ?? []) times.set(plainId(id), [...(times.get(plainId(id)) ?? []), entry.tstamp]);
  return times;
}

/** The timemap of a MusicXML text, repeats and jumps unfolded. */
export async function secondTimeline(xml: string): Promise<SecondTimeline> {
  toolkit ??= openToolkit();
  const reader = await toolkit;
  if (!reader.loadData(xml)) throw new Error(`verovio cannot read the document: ${reader.getLog()}`);
  const entries = reader.renderToTimemap({}) as readonly Entry[];
  return { onsets: byHead(entries, ({ on }) => on), ends: byHead(entries, ({ off }) => off) };
}
