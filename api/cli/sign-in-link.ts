import { parseArgs } from 'node:util';
import { readConfig } from '../config/config.ts';
import { createApp } from '../create-app.ts';
import { DomainError } from '../errors/domain-error.ts';
import { PeopleService } from '../people/people.service.ts';

const usage =
  'Usage: heddle sign-in-link ADDRESS [--name "NAME"]\n  --name makes a person for an address that is not known yet\n';

async function printLink(address: string, name: string | undefined): Promise<void> {
  const app = await createApp(readConfig({ HEDDLE_LOG_LEVEL: 'error', ...process.env }));
  try {
    const people = app.get(PeopleService);
    if (name !== undefined && (await people.withEmail(address)) === null) {
      await people.makePerson({ name, email: address, password: null, isVerified: true });
    }
    process.stdout.write(`${await people.issueSignInLink(address)}\n`);
  } finally {
    await app.close();
  }
}

const { values, positionals } = parseArgs({ allowPositionals: true, options: { name: { type: 'string' } } });
const [address, ...others] = positionals;
if (address === undefined || others.length > 0) {
  process.stderr.write(usage);
  process.exit(2);
}
try {
  await printLink(address, values.name);
} catch (error) {
  const said =
    error instanceof DomainError && error.code === 'not-found'
      ? `Nobody here has the address ${address}.`
      : String(error);
  process.stderr.write(`${said}\n`);
  process.exit(1);
}
