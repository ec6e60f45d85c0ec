// A worker that does what its job's file name says: answer, hang, hoard memory (typed arrays, which no heap limit counts) or die.
const hoard = [];

process.on('message', ({ number, job }) => {
  if (job.fileName === 'hang') for (;;);
  if (job.fileName === 'die') process.exit(3);
  if (job.fileName === 'hoard') {
    for (;;) {
      const held = new Uint8Array(8_000_000);
      held.fill(1);
      hoard.push(held);
    }
  }
  if (job.fileName === 'throw') process.send({ number, failure: 'broken inside' });
  else process.send({ number, answer: { kind: 'refusedFile', issues: [], pid: process.pid } });
});
