import type { LessonStep } from '../../../contract/index.ts';
import type { LessonText } from '../../lib/api/lessons.ts';

/** A change of a lesson's text, to be handed to its keeper. */
export type TextChange = (text: LessonText) => LessonText;
export type Edit = (change: TextChange) => void;

/** Puts a step in place of the one with its id. */
export const replaceStep =
  (step: LessonStep): TextChange =>
  (text) => ({
    ...text,
    steps: text.steps.map((each) => (each.id === step.id ? step : each)),
  });

export const removeStep =
  (id: string): TextChange =>
  (text) => ({ ...text, steps: text.steps.filter((step) => step.id !== id) });

/** Moves a step by so many places, held within the lesson. */
export const moveStep =
  (id: string, by: number): TextChange =>
  (text) => {
    const index = text.steps.findIndex((step) => step.id === id);
    const step = text.steps[index];
    if (step === undefined) return text;
    const others = text.steps.filter((each) => each !== step);
    const target = Math.min(others.length, Math.max(0, index + by));
    return { ...text, steps: [...others.slice(0, target), step, ...others.slice(target)] };
  };

export const addStep =
  (step: LessonStep): TextChange =>
  (text) => ({ ...text, steps: [...text.steps, step] });
