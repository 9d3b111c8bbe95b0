import { strFromU8, unzipSync, type UnzipFileInfo } from 'fflate';
import { say } from '../../../texts/reading-musicxml';
import type { ScoresRead } from '../score';
import { utf16Text } from '../source-text';
import { readMusicXml } from './read-musicxml';
import { childOf, childrenOf, xmlTree } from './xml-tree';

const MOST_ENTRIES = 1000;
const MOST_BYTES = 20_000_000;
/** Scores are packed to about a twentieth; no honest one to less than this share. */
const MOST_RATIO = 200;
const CONTAINER = 'META-INF/container.xml';

class Refused extends Error {}

/**
 * Reads a compressed MusicXML file: a zip whose `META-INF/container.xml` names the score. Only those two entries are
 * inflated, and only when the sizes that the zip declares are sane; fflate never inflates beyond a declared size.
 */
export function readMxl(bytes: Uint8Array): ScoresRead {
  try {
    const container = inflated(bytes, (name) => name === CONTAINER);
    const rootfile = container && rootfileOf(decodedXml(container.bytes));
    const score =
      inflated(bytes, (name) => name === rootfile) ??
      inflated(bytes, (name) => /\.(musicxml|xml)$/i.test(name) && !name.startsWith('META-INF/'));
    if (!score) throw new Refused(say.noScoreInside);
    return readMusicXml(decodedXml(score.bytes));
  } catch (error) {
    const reason = error instanceof Refused ? error.message : say.damaged;
    return { scores: [], warnings: [{ line: 1, column: 1, message: say.packed(reason) }] };
  }
}

/** The first entry whose name fits. */
function inflated(bytes: Uint8Array, fits: (name: string) => boolean): { bytes: Uint8Array } | null {
  if (((bytes[6] ?? 0) & 1) === 1) throw new Refused(say.encrypted);
  let entries = 0;
  let found = false;
  const filter = ({ name, size, originalSize }: UnzipFileInfo) => {
    entries += 1;
    if (entries > MOST_ENTRIES) throw new Refused(say.tooManyFiles(MOST_ENTRIES));
    if (found || !fits(name)) return false;
    if (originalSize > MOST_BYTES) throw new Refused(say.tooLarge(MOST_BYTES / 1_000_000));
    if (originalSize > 1_000_000 && originalSize > size * MOST_RATIO) {
      throw new Refused(say.tooPacked(MOST_RATIO));
    }
    found = true;
    return true;
  };
  const [content] = Object.values(unzipSync(bytes, { filter }));
  return content ? { bytes: content } : null;
}

function rootfileOf(container: string): string | null {
  const { root } = xmlTree(container);
  const [rootfile] = childrenOf(childOf(root ?? undefined, 'rootfiles'), 'rootfile');
  return rootfile?.attributes['full-path'] ?? null;
}

/** Bytes of XML as text: UTF-16 by its byte order mark or its first sign, Latin-1 when declared, otherwise UTF-8. */
function decodedXml(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if ((first === 0xfe && second === 0xff) || (first === 0 && second === 0x3c))
    return utf16Text(bytes, 0, 'big');
  if ((first === 0xff && second === 0xfe) || (first === 0x3c && second === 0))
    return utf16Text(bytes, 0, 'little');
  const head = strFromU8(bytes.subarray(0, 200), true);
  return strFromU8(bytes, /encoding\s*=\s*["'](iso-8859-1|latin1|us-ascii)["']/i.test(head));
}
