import { capital } from './figures';
import { counted } from './number-words';
import { spoken } from './spoken';

/** Today: the check-in, the plan as lines, and what the app has to tell. */
export const say = spoken('today', {
  title: 'Today · Phrasewright',
  app: 'Phrasewright',
  today: 'Today',
  understood: 'Understood',
  reading: 'Reading your practice',
  readingSoFar: (percent: number) => `Reading your practice: ${percent} %`,

  checkIn: 'Check-in',
  iHave: 'I have',
  minutes: (minutes: number) => `${minutes} minutes`,
  banjoIsIn: 'the banjo is in',
  anyTuning: 'any',
  /** After `anyTuning`. */
  tuning: 'tuning',
  handsFeel: 'and my hands feel',
  hands: { fresh: 'fresh', stiff: 'stiff', tired: 'tired', sore: 'sore' },

  goOn: 'Go on',
  begin: 'Begin',
  whereLeft: 'where it was left',
  fromToward: (from: number, toward: number) => `from ${from}, toward ${toward}`,

  passages: (count: number) => capital(counted(count, 'passage')),
  /** `tuning`: of all of them, where it is one. */
  allMinutes: (minutes: number, tuning: string | null) =>
    `${minutes} minutes${tuning === null ? '' : `, all in ${tuning}`}`,
  minutesLeft: (left: number, minutes: number) => `${left} of ${minutes} minutes are left.`,
  minutesPlayed: (minutes: number) => `The ${minutes} minutes are played. This would be more.`,
  nothingToPlan: 'Nothing to plan',
  nothingElseFits: 'What else there is fits neither the minutes nor the tuning.',
  noTuneFits: (tuning: string) => `No tune fits ${tuning}. Choose “any tuning”, or add a tune.`,
  noTuneInPlan: 'No tune is in the plan: add one, or take one out that was put away.',
  passagesOfToday: 'Today’s passages',
  readingPlayed: 'Reading what was played.',
  stopWhenItHurts:
    'Stop when something hurts, tingles or goes numb. If it does not go away, see a licensed clinician. After 25 minutes, take a break.',

  backUp: 'Back it up',
  notNow: 'Not now',
  allOnDevice: 'Everything is on this device now. No network is needed.',
  newVersionHeldUp: 'A drill is open in another tab. End it there, then load the new version.',
  newVersion: 'A new version is here. It loads when you say so.',
  loadNow: 'Load now',
});
