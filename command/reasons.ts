const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'something on the way to it is no folder',
  EISDIR: 'it is a folder',
  EACCES: 'you may not',
  EPERM: 'you may not',
  EROFS: 'everything there is for reading only',
  ENOSPC: 'there is no room left',
  EDQUOT: 'there is no room left for you',
  EFBIG: 'it would be larger than files may be',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links lead in a circle',
  EBADF: 'it is not open',
  EIO: 'the device failed',
};

/** Why the file system did not do as it was asked, in words that follow a colon. */
export function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const { code = '' } = error as NodeJS.ErrnoException;
  return reasons[code] ?? error.message;
}
