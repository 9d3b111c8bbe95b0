import type { PolicyFactory } from '../practice';
import { measuresInOrder } from './measures-in-order';
import { oracle } from './oracle';
import { planner } from './planner';
import { playThrough } from './play-through';
import { alwaysSlowest, fixedRotation, randomPassage } from './turns';

/** What sensible people do without the program. */
export const BASELINES: Readonly<Record<string, PolicyFactory>> = {
  'play-through': playThrough,
  'measures-in-order': measuresInOrder,
  'random-passage': randomPassage,
  'always-slowest': alwaysSlowest,
  'fixed-rotation': fixedRotation,
};

export const POLICIES: Readonly<Record<string, PolicyFactory>> = { planner, ...BASELINES, oracle };
