import { demoPieces } from './demo-pieces.ts';

const piece = demoPieces()[Number(process.argv[2] ?? '1') - 1];
if (piece === undefined) {
  process.stderr.write('Usage: node dist/seed/print-piece.js 1|2 > piece.musicxml\n');
  process.exitCode = 1;
} else process.stdout.write(piece.musicXml);
