import { expect, test } from 'vitest';
import { tableKeyOf } from './table-keys.ts';

const press = (key: string, code = '', held: readonly ('shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey')[] = []) =>
  tableKeyOf({
    key,
    code,
    shiftKey: held.includes('shiftKey'),
    ctrlKey: held.includes('ctrlKey'),
    metaKey: held.includes('metaKey'),
    altKey: held.includes('altKey'),
  });

test('digits name lines by their place on the keyboard, whatever shift makes of them', () => {
  expect(press('2', 'Digit2')).toEqual({ kind: 'line', index: 1, adds: false });
  expect(press('"', 'Digit2', ['shiftKey'])).toEqual({ kind: 'line', index: 1, adds: true });
  expect(press('9', 'Numpad9')).toEqual({ kind: 'line', index: 8, adds: false });
});

test('0 and Backspace take off, Ctrl Z takes back, Ctrl Shift Z and Ctrl Y do again', () => {
  expect([press('0', 'Digit0'), press('Backspace')].map((key) => key?.kind)).toEqual(['unassign', 'unassign']);
  expect(press('z', 'KeyZ', ['ctrlKey'])?.kind).toBe('undo');
  expect(press('Z', 'KeyZ', ['metaKey', 'shiftKey'])?.kind).toBe('redo');
  expect(press('y', 'KeyY', ['ctrlKey'])?.kind).toBe('redo');
});

test('the browser keeps its own keys', () => {
  expect(press('l', 'KeyL', ['ctrlKey'])).toBeNull();
  expect(press('ArrowLeft', 'ArrowLeft', ['altKey'])).toBeNull();
  expect(press('Tab', 'Tab')).toBeNull();
  expect(press('1', 'Digit1', ['ctrlKey'])).toBeNull();
});

test('G plays on from the note; S sounds what starts with it at one stroke, with Shift spread', () => {
  expect([press('g', 'KeyG'), press('s', 'KeyS'), press('S', 'KeyS', ['shiftKey'])].map((key) => key?.kind)).toEqual([
    'playFrom',
    'stroke',
    'spread',
  ]);
});
