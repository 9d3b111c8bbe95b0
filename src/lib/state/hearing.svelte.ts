import type { ClickEngine } from '$lib/audio/click-engine';
import type { Played, StringPlayer } from '$lib/audio/string-player';
import { HEARING_TEMPO_MAX, HEARING_TEMPO_MIN } from '$lib/core/pluck/hearing';
import type { Sounded } from '$lib/core/pluck/plucks';
import { tabMissing } from '$lib/core/pluck/tab-missing';
import type { Pattern } from '$lib/core/rhythm/patterns';
import type { Passage } from '$lib/core/tune/passage';
import { passageName } from '$lib/core/tune/passage-name';
import type { ReferenceTone } from '$lib/core/tune/retune';
import type { StringNumber } from '$lib/core/tune/tuning';
import type { Tune } from '$lib/core/tune/tune';
import { say } from '$lib/texts/sound-device';
import { app } from './app.svelte';
import { sentence } from './sentence';
import type { SoundDevice } from './sound-device.svelte';

/** How a passage is heard; kept from one passage to the next for as long as the app is open. */
export interface HearingChoices {
  tempo: 'goal' | 'slow';
  times: 'once' | 'looped' | 'answers';
  sounded: Sounded;
  /** The click goes beside the string. */
  click: boolean;
}

/** A passage to be heard. */
export interface HeardPassage {
  tune: Tune;
  passage: Passage;
  /** Beats per minute of "slowly". */
  slow: number;
}

/** What is heard at the moment: the count-in, the passage, or the time left for the learner's answer. */
export type HeardTurn = 'count-in' | 'call' | 'answer';

type Task = { kind: 'passage'; heard: HeardPassage } | { kind: 'tone'; tune: Tune; tone: ReferenceTone };

const kept: HearingChoices = $state({ tempo: 'goal', times: 'once', sounded: 'both', click: false });

/** "Hear it", on whatever screen: a passage or a reference tone, by the string of the screen's own device. */
export class Hearing {
  /** From the touch until it is over or stopped. */
  isOn = $state(false);
  turn: HeardTurn | null = $state(null);
  /** Beats of that turn that have been heard, not rounded. */
  beat: number | null = $state(null);
  /** Beats per minute of what was asked for last. */
  tempo = $state(0);
  /** The string whose reference tone sounds. */
  string: StringNumber | null = $state(null);
  /** Why it could not be played. */
  refusal: string | null = $state(null);
  readonly #device: SoundDevice;
  #engine: ClickEngine | null = null;
  #player: StringPlayer | null = null;
  #offFinished: (() => void) | null = null;
  #task: Task | null = null;
  #frame = 0;

  constructor(device: SoundDevice) {
    this.#device = device;
  }

  get choices(): Readonly<HearingChoices> {
    return kept;
  }

  /** Plays a passage as chosen. Call it within a user gesture. */
  hear(heard: HeardPassage): Promise<void> {
    return this.#start({ kind: 'passage', heard });
  }

  /** Sounds one string, to tune by. Call it within a user gesture. */
  sound(tune: Tune, tone: ReferenceTone): Promise<void> {
    return this.#start({ kind: 'tone', tune, tone });
  }

  /** The last thing heard, again. */
  async again(): Promise<void> {
    if (this.#task && !this.isOn) await this.#start(this.#task);
  }

  /** Changes how a passage is heard; what sounds follows at once, or from its next pass where it is a loop that can. */
  choose(change: Partial<HearingChoices>): void {
    Object.assign(kept, change);
    if (!this.isOn || this.#task?.kind !== 'passage') return;
    const startsAnew = 'tempo' in change || 'times' in change || this.choices.times === 'once';
    if (startsAnew) void this.#start(this.#task);
    else this.#player?.change(this.#played(this.#task.heard));
  }

  /** The tune was edited: a loop goes on with what it has become. */
  follow(tune: Tune): void {
    if (this.#task?.kind !== 'passage' || !this.isOn) return;
    this.#task = { kind: 'passage', heard: { ...this.#task.heard, tune } };
    this.#player?.change({ tune });
  }

  /** Silent at once. */
  stop(): void {
    if (!this.isOn) return;
    this.#player?.stop();
    this.#end();
  }

  /** Stops and lets go of the device, which its owner closes. */
  release(): void {
    this.stop();
    this.#letGo();
  }

  async #start(task: Task): Promise<void> {
    this.refusal = null;
    this.#task = task;
    this.isOn = true;
    this.string = task.kind === 'tone' ? task.tone.string : null;
    if (task.kind === 'passage') this.tempo = this.#tempoOf(task.heard);
    try {
      const engine = await this.#device.open(app.settings, titleOf(task));
      const { StringPlayer } = await import('$lib/audio/string-player');
      if (!this.isOn || this.#task !== task) return;
      if (!engine) return this.#end();
      this.#take(engine, StringPlayer);
      this.#play(task);
    } catch (error) {
      this.refusal = sentence(error);
      this.#end();
    }
  }

  #take(engine: ClickEngine, Player: typeof StringPlayer): void {
    if (this.#engine === engine) return;
    this.#letGo();
    this.#engine = engine;
    this.#player = new Player(engine);
    this.#offFinished = engine.onFinished(() => {
      if (this.isOn) this.#end();
    });
  }

  #letGo(): void {
    this.#player?.release();
    this.#offFinished?.();
    this.#engine = this.#player = this.#offFinished = null;
  }

  #play(task: Task): void {
    this.#device.choose(app.settings);
    if (task.kind === 'tone') this.#player?.tone(task.tone);
    else if (
      !this.#player?.hear(this.#played(task.heard), this.choices.times === 'once' ? 'once' : 'looped')
    ) {
      this.refusal = say.passageGone;
      return this.#end();
    }
    this.#device.setPlaying(true);
    cancelAnimationFrame(this.#frame);
    this.#watch();
  }

  #played(heard: HeardPassage): Played {
    const { sounded, times } = this.choices;
    const { countIn, spokenCount } = app.settings;
    const { tune, passage } = heard;
    const pattern = this.#patternFor(heard);
    const answers = times === 'answers' && !isWithoutTab(heard);
    return { tune, passage, tempo: this.tempo, sounded, pattern, countIn, answers, spokenCount };
  }

  /** A passage without tab is heard as its click, whatever was chosen. */
  #patternFor(heard: HeardPassage): Pattern {
    const { clickPattern } = app.settings;
    if (!this.choices.click && !isWithoutTab(heard)) return 'silent';
    return clickPattern === 'silent' ? 'beat' : clickPattern;
  }

  #tempoOf({ tune, slow }: HeardPassage): number {
    const asked = this.choices.tempo === 'goal' ? tune.goalTempo : slow;
    return Math.min(HEARING_TEMPO_MAX, Math.max(HEARING_TEMPO_MIN, asked));
  }

  #watch(): void {
    this.#frame = requestAnimationFrame(() => this.#watch());
    const position = this.#engine?.now() ?? null;
    this.beat = position?.beats ?? null;
    if (!position) this.turn = null;
    else if (position.segment.kind === 'count-in') this.turn = 'count-in';
    else this.turn = position.segment.id.startsWith('answer') ? 'answer' : 'call';
  }

  #end(): void {
    cancelAnimationFrame(this.#frame);
    this.isOn = false;
    this.turn = this.beat = this.string = null;
    this.#device.setPlaying(false);
  }
}

function isWithoutTab({ tune, passage }: HeardPassage): boolean {
  return tabMissing(tune, passage)?.isAll ?? false;
}

function titleOf(task: Task): { title: string; detail: string } {
  if (task.kind === 'tone') return { title: task.tune.title, detail: say.tuningUp(task.tone.name) };
  const { tune, passage } = task.heard;
  return { title: tune.title, detail: passageName(tune, passage) };
}
