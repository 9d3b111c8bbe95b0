import { parseArgs } from 'node:util';
import { Trouble } from './trouble';
import { VERBS } from './verbs';

const TEXT = { type: 'string' } as const;
const KEYS = { type: 'string', multiple: true } as const;
const OPTIONS = {
  ...{ book: TEXT, now: TEXT, minutes: TEXT, tuning: TEXT, passage: TEXT, meter: TEXT, as: TEXT },
  ...{ skip: KEYS, pin: KEYS },
  ...{ tempo: TEXT, 'to-tempo': TEXT, step: TEXT, beats: TEXT, pattern: TEXT, swing: TEXT },
  ...{ 'count-in': TEXT, spoken: { type: 'boolean' } as const, sound: TEXT, rate: TEXT, out: TEXT },
  ...{ tune: TEXT, layer: TEXT, from: TEXT, to: TEXT, times: TEXT },
  ...{ answers: { type: 'boolean' } as const, click: { type: 'boolean' } as const },
};

/** JSON of what the verb found. Throws a Trouble for anything the person can put right. */
function run(args: readonly string[]): string {
  const { values, positionals } = parse(args);
  const [name = '', ...files] = positionals;
  const verb = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (!verb) throw new Trouble(`Say what to do, ${Object.keys(VERBS).join(', ')}: saw ${name || 'nothing'}.`);
  return JSON.stringify(verb(values, files));
}

function parse(args: readonly string[]) {
  try {
    return parseArgs({ args: negativesJoined(args), options: OPTIONS, allowPositionals: true });
  } catch (error) {
    const what = error instanceof Error ? (error.message.split(/[.\n]/)[0] ?? '') : '';
    throw new Trouble(`${what}; the options are --${Object.keys(OPTIONS).join(', --')}.`);
  }
}

/** `--minutes -5` as `--minutes=-5`: a negative number is a value, and its own rule says what is wrong with it. */
function negativesJoined(args: readonly string[]): string[] {
  return args.reduce<string[]>((joined, arg) => {
    const before = joined.at(-1);
    if (/^-\d/.test(arg) && before && /^--\w+$/.test(before)) joined.splice(-1, 1, `${before}=${arg}`);
    else joined.push(arg);
    return joined;
  }, []);
}

try {
  process.stdout.write(`${run(process.argv.slice(2))}\n`);
} catch (error) {
  if (!(error instanceof Trouble)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 2;
}
