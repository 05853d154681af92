const MOST_CHARACTERS = 60;

/** Names that Windows keeps for devices, whatever their case. */
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * A job's name as the name of its result folder, on every system: ASCII letters, digits and single hyphens; accents are
 * dropped from their letters. Never empty (`job` where nothing is left), at most 60 characters.
 */
export function folderName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-/, '')
    .slice(0, MOST_CHARACTERS)
    .replace(/-$/, '');
  return plain === '' ? 'job' : DEVICE.test(plain) ? `job-${plain}` : plain;
}
