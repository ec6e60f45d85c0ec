import type { AnswerMessage, Job, JobAnswers, JobMessage } from './jobs.ts';
import { exportFile } from './export-job.ts';
import { findFingering } from './fingering-job.ts';
import { propose } from './propose-job.ts';
import { read } from './read-job.ts';

function answerTo(job: Job): JobAnswers[Job['kind']] {
  switch (job.kind) {
    case 'read':
      return read(job);
    case 'propose':
      return propose(job);
    case 'fingering':
      return findFingering(job);
    case 'export':
      return exportFile(job);
  }
}

function answered({ number, job }: JobMessage): AnswerMessage {
  try {
    return { number, answer: answerTo(job) };
  } catch (error) {
    return { number, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

process.on('message', (message: JobMessage) => {
  process.send?.(answered(message));
});
process.on('disconnect', () => process.exit(0));
