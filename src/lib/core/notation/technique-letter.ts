import type { Technique } from '../tune/strike';

/** The trade's letters; a plain strike, a drone and a tie need none, a brush is an arrow. */
export function techniqueLetter(technique: Technique): string | null {
  switch (technique) {
    case 'drop-thumb':
      return 'D';
    case 'hammer-on':
      return 'H';
    case 'pull-off':
      return 'P';
    case 'slide':
      return 'S';
    case 'strike':
    case 'brush':
    case 'drone':
    case 'tie':
      return null;
  }
}
