import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawClimb, PATH_HEIGHT, PATH_WIDTH } from '../../../src/lib/ui/drill/climb-path';
import { drillKey } from '../../../src/lib/ui/drill/drill-keys';
import type { Mark } from '../../../src/lib/core/practice/marking';

describe('what a key does in the drill', () => {
  it.each(['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'PageUp', 'PageDown', ' ', 'Enter'])(
    'takes %j, as a foot pedal sends it, for a touch',
    (key) => {
      expect(drillKey(key, null)).toBe('touch');
    },
  );

  it('leaves Space and Enter to the control that has the focus, and the pedal its other keys', () => {
    expect(drillKey(' ', 'control')).toBeNull();
    expect(drillKey('Enter', 'control')).toBeNull();
    expect(drillKey('PageDown', 'control')).toBe('touch');
  });

  it('leaves a field its arrows, its digits and its Backspace, and still ends by Escape', () => {
    const keys = ['ArrowLeft', 'ArrowUp', 'PageDown', ' ', '-', 'h', 's', 'Backspace'];
    expect(keys.map((key) => drillKey(key, 'field'))).toEqual(keys.map(() => null));
    expect(drillKey('Escape', 'field')).toBe('end');
  });

  it('knows its letters in both cases, and no others', () => {
    expect(['p', 'P', 'Escape', 'h', 'S'].map((key) => drillKey(key, null))).toEqual([
      'pause',
      'pause',
      'end',
      'hear',
      'sound',
    ]);
    expect(drillKey('q', null)).toBeNull();
  });
});

describe('the drawing of a climb', () => {
  it('stays on its field, whatever was played', () => {
    const tempo = fc.integer({ min: 20, max: 300 });
    const mark = fc.constantFrom<Mark>('clean', 'stumbled', 'broke down', null);
    fc.assert(
      fc.property(fc.array(fc.record({ tempo, mark })), tempo, tempo, (passes, now, toward) => {
        const { squares, now: here } = drawClimb(passes, now, toward);
        expect(squares.length).toBe(Math.min(11, passes.length));
        for (const { x, y } of [...squares, here]) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(PATH_WIDTH);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(PATH_HEIGHT);
        }
      }),
    );
  });
});
