// A worker process for broken files: reads each as an upload is read, then does what every screen does with a score.
import { read } from '../../dist/api/workers/read-job.js';
import { readNormalised, timelineOf } from '../../dist/music/index.js';

const areFinite = (...numbers) => numbers.every((number) => Number.isFinite(number));

/** What is wrong with a score that came out of a broken file. */
function faultsOf(score) {
  const ends = timelineOf(score).notes.map(({ onsetSeconds, lengthSeconds }) => onsetSeconds + lengthSeconds);
  const ordered = score.notes.every(
    ({ onsetTicks }, index) => index === 0 || onsetTicks >= score.notes[index - 1].onsetTicks,
  );
  return [
    ...(score.bars.every(({ onsetTicks, lengthTicks }) => areFinite(onsetTicks, lengthTicks) && lengthTicks >= 0)
      ? []
      : ['a bar without a length']),
    ...(score.notes.every(
      ({ onsetTicks, lengthTicks }) => areFinite(onsetTicks) && lengthTicks > 0 && lengthTicks < Infinity,
    )
      ? []
      : ['a note without a length']),
    ...(ordered ? [] : ['notes out of order']),
    ...(areFinite(...ends) ? [] : ['a note that is never played']),
  ];
}

const isTold = ({ code, where, severity, detail }) =>
  code !== '' && where !== undefined && severity !== '' && typeof detail === 'string' && /\S.*[.!?”]$/s.test(detail);

function reportOn(job) {
  const before = process.cpuUsage();
  const answer = read(job);
  const untold = answer.issues
    .filter((issue) => !isTold(issue))
    .map((issue) => `untold: ${JSON.stringify(issue).slice(0, 200)}`);
  const faults = answer.kind === 'readScore' ? faultsOf(readNormalised(answer.normalisedXml).value) : [];
  const silent = answer.kind === 'refusedFile' && !answer.issues.some(({ severity }) => severity === 'error');
  const { user, system } = process.cpuUsage(before);
  return {
    kind: answer.kind,
    seconds: (user + system) / 1e6,
    faults: [...faults, ...untold, ...(silent ? ['refused without a reason'] : [])],
    megabytes: process.resourceUsage().maxRSS / 1024,
  };
}

process.on('message', ({ number, job }) => {
  try {
    process.send({ number, answer: reportOn(job) });
  } catch (error) {
    process.send({ number, failure: error.stack ?? String(error) });
  }
});
process.on('disconnect', () => process.exit(0));
