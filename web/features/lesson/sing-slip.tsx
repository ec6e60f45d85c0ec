import { EdgeButton, FilledButton, WordButton } from '../../ui/buttons.tsx';
import styles from './lesson.module.css';
import type { Outcome, Practice } from './practice.ts';
import type { Listening, ListenStep } from './use-listening.ts';

interface SingSlipProps {
  readonly step: ListenStep;
  readonly listening: Listening;
  readonly practice: Practice | null;
}

const leads = {
  echo: 'Hear the line, sing it in the silence that is just as long, then hear it again.',
  reveal: 'You get the first note and a count-in. Sing the line, then let it show itself.',
  fade: 'The line gets softer each time, and in the end it is only yours. Sing it from the start.',
} as const;

const answers: readonly { readonly outcome: Outcome; readonly text: string }[] = [
  { outcome: 'sang', text: 'I had it' },
  { outcome: 'nearly', text: 'Nearly' },
  { outcome: 'notYet', text: 'Not yet' },
];

const thanks: Readonly<Record<Outcome, string>> = {
  heard: '',
  sang: 'Lovely. It is in your ear now.',
  nearly: 'Close. Once more, a little slower?',
  notYet: 'It comes with hearing it again. Take only the first half.',
};

/** Singing one step: what to do, the revealing, one's own word on how it went. */
export function SingSlip({ step, listening, practice }: SingSlipProps) {
  const { chosen, isRevealed, reveal } = listening;
  if (chosen === null || chosen.kind === 'hear') return null;
  const outcome = practice?.outcomeOf(step.id, chosen.id) ?? null;
  const canMark = practice !== null && (chosen.kind !== 'reveal' || isRevealed);
  return (
    <div className={styles.sing}>
      <p>{leads[chosen.kind]}</p>
      {chosen.kind === 'reveal' && !isRevealed ? <FilledButton onPress={reveal}>Reveal the line</FilledButton> : null}
      {canMark ? (
        <div className={styles.answers} role="group" aria-label="How was it?">
          <span>How was it?</span>
          {answers.map(({ outcome: answer, text }) => (
            <EdgeButton
              key={answer}
              aria-pressed={outcome === answer}
              onPress={() => practice.mark({ stepId: step.id, pathStepId: chosen.id, outcome: answer })}
            >
              {text}
            </EdgeButton>
          ))}
          {outcome === null ? null : <span role="status">{thanks[outcome]}</span>}
        </div>
      ) : null}
      {chosen.kind === 'reveal' && isRevealed ? (
        <WordButton onPress={() => listening.choose(chosen)}>Hide it and sing again</WordButton>
      ) : null}
      <p className={styles.care}>
        Sing where it is comfortable, an octave lower or higher if you like. Rest when it hurts or tires you; if that
        goes on, see a doctor or a voice therapist.
      </p>
    </div>
  );
}
