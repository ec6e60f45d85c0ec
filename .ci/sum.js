// Adds up the test reports of a run and prints the closing line; ends with code 1 where anything failed.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const [folder, extraPassed, extraFailed] = process.argv.slice(2);
let passed = Number(extraPassed);
let failed = Number(extraFailed);
for (const name of readdirSync(folder)) {
  const report = JSON.parse(readFileSync(join(folder, name), 'utf8'));
  passed += report.numPassedTests;
  failed += report.numFailedTests;
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
