// How the bench measures: medians of seven runs after two that warm up; beside a peer, medians of turns taken one after the other.

const runs = 7;

const middle = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];

/** The median of seven runs. **Units** milliseconds. */
export function medianMs(work) {
  work();
  work();
  const times = [];
  for (let run = 0; run < runs; run += 1) {
    const startedAt = performance.now();
    work();
    times.push(performance.now() - startedAt);
  }
  return middle(times);
}

/** The median of seven runs of something that takes time elsewhere. **Units** milliseconds. */
export async function medianMsOf(work) {
  await work();
  await work();
  const times = [];
  for (let run = 0; run < runs; run += 1) {
    const startedAt = performance.now();
    await work();
    times.push(performance.now() - startedAt);
  }
  return middle(times);
}

function timed(work) {
  const startedAt = performance.now();
  work();
  return performance.now() - startedAt;
}

/** The medians of two kinds of work that take turns, so that what else the machine does meets both; each has run `turns` times before, until its code is compiled. `first` is what the very first runs took. **Units** milliseconds. */
export function mediansInTurn(works, turns) {
  const rounds = Array.from({ length: 2 * turns }, () => works.map(timed));
  const counted = rounds.slice(turns);
  return works.map((_, index) => ({
    median: middle(counted.map((round) => round[index])),
    first: rounds[0][index],
  }));
}

/** A number with as many places as one reads. */
export const shown = (value) => (value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2));

/** One line of the bench's table; `holds` is null where there is nothing to hold. */
export const row = (what, budget, figure, holds = null, peer = '') => ({ what, budget, figure, holds, peer });
