export { Clock } from './clock/clock.ts';
export { SystemClock } from './clock/system-clock.ts';
export { readConfig, type Config } from './config/config.ts';
export { createApp } from './create-app.ts';
export { migrateDatabase } from './database/migrate-database.ts';
export { type Person } from './people/person.ts';
export { deskOf, type Desk } from './desk.ts';
export { plainStartFailure } from './start-failure.ts';
