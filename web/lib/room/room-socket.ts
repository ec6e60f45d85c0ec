import { io } from 'socket.io-client';
import { serverMessage, type ClientMessage, type ServerMessage } from '../../../contract/index.ts';

/** The wire to a splitting table, whatever carries it. */
export interface RoomSocket {
  readonly send: (message: ClientMessage) => void;
  readonly listen: (listeners: RoomListeners) => void;
  readonly close: () => void;
}

/** What a wire tells. */
export interface RoomListeners {
  /** A connection stands; `connectionId` is how the server names it. */
  readonly onOpen: (connectionId: string) => void;
  readonly onMessage: (message: ServerMessage) => void;
  readonly onClose: () => void;
}

/** A wire by socket.io, websocket only, which connects again by itself. */
export function openRoomSocket(address: string): RoomSocket {
  const socket = io(address, {
    path: '/socket',
    transports: ['websocket'],
    autoConnect: false,
    reconnectionDelayMax: 4000,
  });
  return {
    send: (message) => void socket.emit('message', message),
    listen: ({ onOpen, onMessage, onClose }) => {
      socket.on('connect', () => onOpen(socket.id ?? ''));
      socket.on('disconnect', (reason) => {
        onClose();
        if (reason === 'io server disconnect') socket.connect();
      });
      socket.on('message', (body: unknown) => {
        const parsed = serverMessage.safeParse(body);
        if (parsed.success) onMessage(parsed.data);
        else
          console.error('The server sent a message that this page does not know; reload it.', parsed.error.issues[0]);
      });
      socket.connect();
    },
    close: () => void socket.disconnect(),
  };
}
