/** The system's reasons for not reading or writing a file, in words. */
const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EISDIR: 'a folder, where a file is needed',
  EBUSY: 'another program keeps it to itself',
  ETXTBSY: 'another program keeps it to itself',
  EEXIST: 'there is a file of that name already',
  ENOSPC: 'no space left on the disk',
  EDQUOT: 'no space left on the disk',
  EROFS: 'the disk is read-only',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'the links go round in a circle',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  ENXIO: 'it is a device or a pipe, not a file',
  ENODEV: 'it is a device or a pipe, not a file',
  EFBIG: 'the disk takes no file of this size',
  ESTALE: 'the network folder has lost it',
  ETIMEDOUT: 'the network folder does not answer',
  EIO: 'the disk reports an error',
  ERR_INVALID_ARG_VALUE: 'no file can have this name',
};

/** The reason in words; the system's own code where there are none for it. */
export function reasonOf(code: string): string {
  return reasons[code] ?? code;
}
