import { hostileFile, type HostileFile } from './corpus.ts';
import { hostileSources } from './sources.ts';

/** What a reading process says of one file. */
export interface Verdict {
  readonly kind: 'readScore' | 'refusedFile';
  /** What is wrong with the answer itself. */
  readonly faults: readonly string[];
  /** Processor time that the answer took; on a busy machine the clock says more. */
  readonly seconds: number;
  /** The most memory that the process has held so far. */
  readonly megabytes: number;
}

/** A process that reads files one after the other; a new one is started where one is gone. */
export interface Reader {
  readonly read: (file: HostileFile) => Promise<Verdict>;
  readonly stop: () => void;
}

/** What became of all files. */
export interface Outcome {
  readonly readCount: number;
  readonly refusedCount: number;
  /** A sentence for each file that crashed, hung, hoarded or was answered wrongly. */
  readonly failures: readonly string[];
  /** **Units** seconds of processor time. */
  readonly slowestSeconds: number;
  readonly slowest: string;
  readonly mostMegabytes: number;
}

interface Running {
  counts: Record<Verdict['kind'], number>;
  failures: string[];
  slowestSeconds: number;
  slowest: string;
  mostMegabytes: number;
  next: number;
}

async function readOne(file: HostileFile, reader: Reader, running: Running): Promise<void> {
  try {
    const { kind, faults, seconds, megabytes } = await reader.read(file);
    running.counts[kind] += 1;
    running.mostMegabytes = Math.max(running.mostMegabytes, megabytes);
    if (seconds > running.slowestSeconds) Object.assign(running, { slowestSeconds: seconds, slowest: file.name });
    if (faults.length > 0) running.failures.push(`${file.name}: ${faults.join('; ')}`);
  } catch (error) {
    running.failures.push(`${file.name}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** Reads the broken files of seeds `first` to `first + count - 1`, a process for each reader, and tells what became of them. */
export async function readHostileFiles(first: number, count: number, readers: readonly Reader[]): Promise<Outcome> {
  const sources = hostileSources();
  const running: Running = {
    counts: { readScore: 0, refusedFile: 0 },
    failures: [],
    slowestSeconds: 0,
    slowest: '',
    mostMegabytes: 0,
    next: first,
  };
  const work = async (reader: Reader): Promise<void> => {
    while (running.next < first + count) {
      const seed = running.next;
      running.next += 1;
      await readOne(hostileFile(sources, seed), reader, running);
    }
    reader.stop();
  };
  await Promise.all(readers.map(work));
  const { counts, failures, slowestSeconds, slowest, mostMegabytes } = running;
  return {
    readCount: counts.readScore,
    refusedCount: counts.refusedFile,
    failures,
    slowestSeconds,
    slowest,
    mostMegabytes,
  };
}
