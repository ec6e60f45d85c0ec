// Ends with code 0 where the Postgres and the Redis of the two addresses accept connections.
import { connect } from 'node:net';

const answers = (address) =>
  new Promise((resolve) => {
    const { hostname, port } = new URL(address);
    const socket = connect({ host: hostname, port: Number(port), timeout: 2000 });
    const end = (result) => {
      socket.destroy();
      resolve(result);
    };
    socket
      .once('connect', () => end(true))
      .once('timeout', () => end(false))
      .once('error', () => end(false));
  });

const all = await Promise.all(process.argv.slice(2).map(answers));
process.exit(all.every(Boolean) ? 0 : 1);
