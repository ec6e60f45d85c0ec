import { expect, test } from 'vitest';
import { lineId, noteId, type Score, type Split } from '../../../music/index.ts';
import { chord, line, meter } from '../../../tests/support/score-builders.ts';
import { Proposer, type ProposerPort } from './proposer.ts';
import { Proposing, type ProposerAnswer, type ProposerQuestion } from './proposing.ts';

const score = line(
  meter(4, 4),
  ...[
    ['C5', 'C3'],
    ['D5', 'B2'],
    ['E5', 'A2'],
    ['F5', 'G2'],
  ].map((names) => chord(names, 1)),
);
const empty: Split = { revision: 0, lines: [], marks: new Map() };

/** A worker in the same process that answers when it is let. */
function workers() {
  const opened: (ProposerPort & { readonly questions: ProposerQuestion[]; isEnded: boolean })[] = [];
  const openPort = (): ProposerPort => {
    const port = {
      onmessage: null,
      onerror: null,
      questions: [] as ProposerQuestion[],
      isEnded: false,
      postMessage: (question: ProposerQuestion) => void port.questions.push(structuredClone(question)),
      terminate: () => void (port.isEnded = true),
    };
    opened.push(port);
    return port;
  };
  return { opened, openPort };
}

function seat(song: Score = score) {
  const { opened, openPort } = workers();
  const told: ProposerAnswer[] = [];
  const failures: unknown[] = [];
  let made = 0;
  const proposing = new Proposing(() => `line-${(made += 1)}`);
  const proposer = new Proposer({
    score: song,
    openPort,
    onAnswer: (answer) => void told.push(answer),
    onFailure: (reason) => void failures.push(reason),
  });
  /** Lets the worker take its next question in and answer it whole. */
  const answer = (): void => {
    const port = opened.at(-1);
    const question = port?.questions.shift();
    if (port === undefined || question === undefined) throw new Error('nothing was asked');
    const found = proposing.answer(question);
    if (found !== null) port.onmessage?.({ data: found } as MessageEvent<ProposerAnswer>);
  };
  return { proposer, opened, told, failures, answer };
}

test('the song is sent once, then only the marks that have changed', () => {
  const { proposer, opened } = seat();
  const mark = { lines: [lineId('a')], from: 'person', confidence: null, revision: 1 } as const;
  const first: Split = { ...empty, marks: new Map([[noteId('n1'), mark]]) };
  proposer.makeReady(first);
  proposer.ask({ ...first, marks: new Map(first.marks).set(noteId('n2'), mark) });
  proposer.ask(empty);
  const news = opened[0]?.questions.map((question) => question.news);
  expect(news?.map((one) => one.score?.notes.length ?? null)).toEqual([8, null, null]);
  expect(news?.map((one) => [one.isWhole, one.marks.map(([note]) => note)])).toEqual([
    [true, ['n1']],
    [false, ['n2']],
    [true, []],
  ]);
});

test('the worker proposes what the song asks for, with people’s marks as they are', () => {
  const { proposer, told, answer } = seat();
  proposer.ask(empty);
  answer();
  const { operation } = told[0]!;
  if (operation.kind !== 'acceptProposal') throw new Error('a proposal is an acceptProposal');
  expect(operation.lines.map(({ role }) => role)).toEqual(['melody', 'bass']);
  expect(operation.changes).toHaveLength(8);
  const marks = new Map(operation.changes.map(({ note, after }) => [note, { ...after, revision: 1 }]));
  const low = marks.get(noteId('n2'))!.lines;
  marks.set(noteId('n1'), { lines: low, from: 'person', confidence: null, revision: 2 });
  proposer.ask({ lines: operation.lines, marks });
  answer();
  const next = told[1]!.operation;
  expect(next.kind === 'acceptProposal' && next.changes.some(({ note }) => note === 'n1')).toBe(false);
  expect(next.kind === 'acceptProposal' && next.lines).toEqual([]);
});

test('only the last question is answered; what is forgotten is not', () => {
  const { proposer, told, answer } = seat();
  proposer.ask(empty);
  proposer.ask(empty);
  answer();
  expect(told).toEqual([]);
  answer();
  expect(told.map(({ request }) => request)).toEqual([2]);
  proposer.ask(empty);
  proposer.forget();
  answer();
  expect(told).toHaveLength(1);
});

test('a lost worker is told of once, and the next question starts another with the whole song', () => {
  const { proposer, opened, failures, told, answer } = seat();
  proposer.ask(empty);
  opened[0]?.onerror?.({ message: 'it broke' } as ErrorEvent);
  expect(failures).toEqual(['it broke']);
  expect(opened[0]?.isEnded).toBe(true);
  proposer.ask(empty);
  expect(opened).toHaveLength(2);
  expect(opened[1]?.questions[0]?.news.score).not.toBeNull();
  answer();
  expect(told).toHaveLength(1);
  const broken = new Proposer({
    score,
    openPort: () => {
      throw new Error('not allowed');
    },
    onAnswer: () => undefined,
    onFailure: (reason) => void failures.push(reason),
  });
  broken.ask(empty);
  expect(failures).toHaveLength(2);
});
