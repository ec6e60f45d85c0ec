import type { AnswerMessage, Job, JobAnswers, JobMessage } from './jobs.ts';
import { propose } from './propose-job.ts';
import { read } from './read-job.ts';

const answerTo = (job: Job): JobAnswers[Job['kind']] => (job.kind === 'read' ? read(job) : propose(job));

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
