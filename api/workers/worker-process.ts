import type { AnswerMessage, Job, JobAnswers, JobMessage } from './jobs.ts';
import { exportFile } from './export-job.ts';
import { findFingering } from './fingering-job.ts';
import { propose } from './propose-job.ts';
import { read } from './read-job.ts';
import { renderSound } from './sound-job.ts';

const SHARE_STEP = 0.01;

async function answerTo(job: Job, onShare: (share: number) => void): Promise<JobAnswers[Job['kind']]> {
  switch (job.kind) {
    case 'read':
      return read(job);
    case 'propose':
      return propose(job);
    case 'fingering':
      return findFingering(job);
    case 'export':
      return exportFile(job);
    case 'sound':
      return renderSound(job, onShare);
  }
}

async function answered({ number, job }: JobMessage): Promise<AnswerMessage> {
  let told = 0;
  const onShare = (share: number): void => {
    if (share - told < SHARE_STEP) return;
    told = share;
    process.send?.({ number, share } satisfies AnswerMessage);
  };
  try {
    return { number, answer: await answerTo(job, onShare) };
  } catch (error) {
    return { number, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

process.on('message', (message: JobMessage) => {
  void answered(message).then((answer) => process.send?.(answer));
});
process.on('disconnect', () => process.exit(0));
