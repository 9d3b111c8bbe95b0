import { deflateSync, Inflate, strFromU8, strToU8 } from 'fflate';
import { say } from '../../texts/hand-on';
import type { Id, Layer, Tune } from '../tune/tune';
import { base64url, bytesOfBase64url } from './base64url';
import { isId } from './id';
import { checkTune } from './schema';

/**
 * A tune in the letters of a link, so that it can be handed on without a file: base64url of the raw DEFLATE (RFC 1951) of
 * one byte of version, the number of ids (two bytes, the high one first), the ids (16 bytes each), and the tune's JSON
 * with each id written as `~` and its number.
 */
const VERSION = 1;

const LETTERS_MAX = 1_000_000;
const BYTES_MAX = 5_000_000;
/** DEFLATE packs to a thousandth at the most, so a piece of this length unpacks to a bounded one. */
const PIECE = 4096;

const ID_BYTES = 16;
const HEAD_BYTES = 3;
const ID_IN_JSON = /"([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})"/g;
const NUMBER_IN_JSON = /"(~+)(\d+)"/g;

export type TuneLinkReading = { ok: true; tune: Tune } | { ok: false; damage: string };

/**
 * The tune as another learner is given it: what stands on the board, without what was taken off it. One of the demo becomes
 * a tune of its own, so that taking the demo out of a book does not take it.
 */
export function handedOn(tune: Tune, nextId: () => Id): Tune {
  const { shelf: _shelf, layerShelf: _layerShelf, ...bare } = tune;
  const measureIds = new Set(tune.parts.flatMap(({ measures }) => measures.map(({ id }) => id)));
  const layers = tune.layers.map((layer) => onlyMeasures(layer, measureIds));
  const shown = new Set([
    ...tune.parts.flatMap(({ measures }) => measures.map(({ figureId }) => figureId)),
    ...layers.flatMap(({ changes }) => Object.values(changes)),
  ]);
  const figures = tune.figures.filter(({ id }) => shown.has(id));
  const handed: Tune = { ...bare, layers, figures, origin: 'own', archived: false, deletedAt: null };
  return tune.origin === 'demo' ? withIdsOfItsOwn(handed, nextId) : handed;
}

/** The letters of a tune, some thousand for one of sixteen measures. The tune is taken as it is; see `handedOn`. */
export function writeTuneLink(tune: Tune): string {
  const ids: Id[] = [];
  const numbers = new Map<Id, number>();
  const json = JSON.stringify(tune)
    .replace(NUMBER_IN_JSON, '"~$1$2"')
    .replace(ID_IN_JSON, (_, id: Id) => {
      const number = numbers.get(id) ?? ids.push(id) - 1;
      numbers.set(id, number);
      return `"~${number}"`;
    });
  const text = strToU8(json);
  const bytes = new Uint8Array(HEAD_BYTES + ids.length * ID_BYTES + text.length);
  bytes.set([VERSION, ids.length >> 8, ids.length & 0xff]);
  for (const [index, id] of ids.entries()) bytes.set(bytesOfId(id), HEAD_BYTES + index * ID_BYTES);
  bytes.set(text, HEAD_BYTES + ids.length * ID_BYTES);
  return base64url(deflateSync(bytes, { level: 9 }));
}

/** The tune of such letters, checked as a backup's. Never throws; the damage is a sentence. */
export function readTuneLink(letters: string): TuneLinkReading {
  if (letters.length > LETTERS_MAX) return refuse(say.damage.long);
  const packed = bytesOfBase64url(letters);
  const bytes = packed && inflated(packed);
  if (!bytes || bytes.length < HEAD_BYTES) return refuse(say.damage.changed);
  const [version = 0, high = 0, low = 0] = bytes;
  if (version > VERSION) return refuse(say.damage.newer);
  const count = (high << 8) | low;
  const start = HEAD_BYTES + count * ID_BYTES;
  const ids = Array.from({ length: count }, (_, index) => idOfBytes(bytes, HEAD_BYTES + index * ID_BYTES));
  const checked = checkTune(parsed(withIds(strFromU8(bytes.subarray(start)), ids)));
  if (!checked.ok) return refuse(checked.damage[0] ?? say.damage.noTune);
  return { ok: true, tune: checked.value };
}

function refuse(damage: string): { ok: false; damage: string } {
  return { ok: false, damage };
}

function onlyMeasures(layer: Layer, measureIds: ReadonlySet<Id>): Layer {
  const among = <T>(record: Readonly<Record<Id, T>>): Record<Id, T> =>
    Object.fromEntries(Object.entries(record).filter(([id]) => measureIds.has(id)));
  const { changes, changedAt } = layer;
  return { ...layer, changes: among(changes), ...(changedAt && { changedAt: among(changedAt) }) };
}

function withIdsOfItsOwn(tune: Tune, nextId: () => Id): Tune {
  const own = new Map<Id, Id>();
  const json = JSON.stringify(tune).replace(ID_IN_JSON, (_, id: Id) => {
    const next = own.get(id) ?? nextId();
    own.set(id, next);
    return `"${next}"`;
  });
  return JSON.parse(json) as Tune;
}

function withIds(json: string, ids: readonly Id[]): string {
  return json.replace(NUMBER_IN_JSON, (_, marks: string, number: string) =>
    marks.length > 1 ? `"${marks.slice(1)}${number}"` : `"${ids[Number(number)] ?? ''}"`,
  );
}

function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    // a text that is no JSON is no tune, as the check of the tune will say
    return null;
  }
}

function inflated(packed: Uint8Array): Uint8Array | null {
  const pieces: Uint8Array[] = [];
  let length = 0;
  const inflate = new Inflate((piece) => {
    pieces.push(piece);
    length += piece.length;
  });
  try {
    for (let start = 0; start < packed.length && length <= BYTES_MAX; start += PIECE) {
      inflate.push(packed.subarray(start, start + PIECE), start + PIECE >= packed.length);
    }
  } catch {
    // no DEFLATE, or one that was cut
    return null;
  }
  if (length > BYTES_MAX) return null;
  const bytes = new Uint8Array(length);
  let start = 0;
  for (const piece of pieces) {
    bytes.set(piece, start);
    start += piece.length;
  }
  return bytes;
}

function bytesOfId(id: Id): number[] {
  const digits = id.replaceAll('-', '');
  return Array.from({ length: ID_BYTES }, (_, index) => parseInt(digits.slice(index * 2, index * 2 + 2), 16));
}

/** Empty where the bytes make no id, which no check lets pass. */
function idOfBytes(bytes: Uint8Array, start: number): Id {
  const digits = [...bytes.subarray(start, start + ID_BYTES)]
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('');
  const id = digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
  return isId(id) ? id : '';
}
