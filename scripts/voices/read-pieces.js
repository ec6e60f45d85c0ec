// Reads the pieces that the line proposal is measured on, and says what is wrong with them: file, piece and note.
import { readFileSync } from 'node:fs';

/** What is wrong with the input, in a sentence for who gave it. */
export class BadInput extends Error {}

const isWhole = (value, least, most = Number.MAX_SAFE_INTEGER) =>
  Number.isSafeInteger(value) && value >= least && value <= most;
const isRecord = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Fields of a record and what each must be; `least` and `most` bound whole numbers. */
const noteFields = { onset: [0], duration: [0], midi: [0, 127] };
const meterFields = { onset: [0], beats: [1], beatType: [1] };

function shown(value) {
  if (value === undefined) return 'missing';
  const text = JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

function checkRecord(record, fields, place) {
  if (!isRecord(record)) throw new BadInput(`${place} is ${shown(record)}, not an object.`);
  for (const [name, [least, most]] of Object.entries(fields)) {
    if (isWhole(record[name], least, most)) continue;
    const wanted = most === undefined ? `a whole number, ${least} or more` : `a whole number from ${least} to ${most}`;
    throw new BadInput(`${place}: ${name} is ${shown(record[name])}; it must be ${wanted}.`);
  }
}

function checkList(list, place) {
  if (!Array.isArray(list)) throw new BadInput(`${place} is ${shown(list)}; it must be a list.`);
}

function checkPiece(piece, place, idsBefore) {
  if (!isRecord(piece)) throw new BadInput(`${place} is ${shown(piece)}, not an object.`);
  if (typeof piece.id !== 'string' || piece.id === '')
    throw new BadInput(`${place}: id is ${shown(piece.id)}; it must be a text that is not empty.`);
  if (idsBefore.has(piece.id))
    throw new BadInput(`${place}: another piece before it has the id ${shown(piece.id)} too.`);
  const named = `${place} (${piece.id})`;
  checkRecord(piece, { divisionsPerQuarter: [1] }, named);
  const meters = piece.timeSignatures ?? [];
  checkList(meters, `${named}: timeSignatures`);
  meters.forEach((meter, index) => checkRecord(meter, meterFields, `${named}, time signature ${index + 1}`));
  checkList(piece.notes, `${named}: notes`);
  piece.notes.forEach((note, index) => checkRecord(note, noteFields, `${named}, note ${index + 1}`));
}

function readJson(path) {
  let text;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    throw new BadInput(`${path} cannot be read: ${error.message}`);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new BadInput(`${path} is not JSON: ${error.message}`);
  }
}

/** The pieces of a file, each checked. Pieces, notes and time signatures are counted from 1 in what is said. */
export function readPieces(path) {
  const pieces = readJson(path);
  checkList(pieces, `${path}: what it holds`);
  const ids = new Set();
  pieces.forEach((piece, index) => {
    checkPiece(piece, `${path}, piece ${index + 1}`, ids);
    ids.add(piece.id);
  });
  return pieces;
}
