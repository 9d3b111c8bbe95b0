/** The bench's own laws, by the names of their files. Each module's head says what it assumes and where that comes from. */
import exponentialOvernight from './exponential-overnight.mjs';
import fadingStrength from './fading-strength.mjs';
import hardSeams from './hard-seams.mjs';
import tempoAndContext from './tempo-and-context.mjs';
import tiresAndErrs from './tires-and-errs.mjs';

export const laws = {
  'exponential-overnight': exponentialOvernight,
  'fading-strength': fadingStrength,
  'hard-seams': hardSeams,
  'tires-and-errs': tiresAndErrs,
  'tempo-and-context': tempoAndContext,
};
