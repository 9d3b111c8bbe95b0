import type { ClickEngine, Segment } from '$lib/audio/click-engine';
import { nextStep, setTempoByHand, startClimb, type ClimbState } from '$lib/core/practice/climb';
import { drillIsDone } from '$lib/core/practice/drill-end';
import { entryFor, marksOf, type DrillPhase, type PlayedPass } from '$lib/core/practice/drill-log';
import { breathId, turnSegments, type DrillRhythm, type Turn } from '$lib/core/practice/drill-segments';
import { HANDFUL, nextHandful, nextMark, type Mark } from '$lib/core/practice/marking';
import type { Drill, LogEntry } from '$lib/core/practice/records';
import { countedPasses } from '$lib/core/practice/settled-log';
import type { SettledTempo, Standing } from '$lib/core/practice/standing';
import { passageKey } from '$lib/core/tune/passage';
import { passageStretches, type Stretch } from '$lib/core/tune/places';
import type { Tune } from '$lib/core/tune/tune';
import type { OpenSitting } from '$lib/store/book-store';
import { app, sentence } from './app.svelte';
import { momentNow } from './clock';
import type { DrillOrder } from './drill-link';
import { nextId } from './ids';

/** Passages of at most so many measures may be drilled by the handful. */
const HANDFUL_MEASURES_MAX = 2;
/** In a breath that waits, and in silence, a mark holds when it has not been touched for this long. */
const MARK_SETTLES_MS = 1200;
/** A passage that has been played this often needs only a look at its tab. */
const KNOWN_AFTER_PASSES = 2;

/** A move of the climb by the learner's hand, after so many passes. */
interface HandMove {
  afterPass: number;
  tempo: number;
}

/**
 * One drill, from the first look at the tab to its end. It listens to the click, moves the climb, and writes each mark
 * to the book before the next count-in. The click plays from what was sent ahead: nothing here can move it.
 */
export class DrillRun {
  phase: DrillPhase = $state('look');
  /** Beats heard since the count-in, the pass or the breath began; `null` when nothing sounds. */
  beat: number | null = $state(null);
  passes: readonly PlayedPass[] = $state.raw([]);
  /** What the touches of this breath have counted to in a handful; `null`: unmarked. */
  clean: number | null = $state(null);
  turn: Turn = $state.raw({ firstPass: 1, passes: 1, tempo: 60 });
  isTabHidden = $state(false);
  isPeeking = $state(false);
  secondsLeft = $state(0);
  /** Why the drill ended, in a sentence. */
  ended = $state('');
  /** Why the last mark is not on disk; the mark itself is kept here and written again on `retry`. */
  trouble: string | null = $state(null);
  /** The sentence of a browser that cannot give the click: the drill goes on in silence. */
  silence: string | null = $state(null);

  readonly tune: Tune;
  readonly order: DrillOrder;
  readonly standing: Standing;
  readonly stretches: readonly Stretch[];
  readonly hasTab: boolean;
  /** What the passage is settled at, the passes of this drill included as they come in. */
  settled: SettledTempo | null = null;

  #moves: readonly HandMove[] = $state.raw([]);
  readonly #climb = $derived.by(() => this.#replay());
  #engine: ClickEngine | null = null;
  #drill: Drill | null = null;
  #wasTabSeen = false;
  #hasLooked = false;
  #unwritten: LogEntry[] = [];
  #writing: Promise<void> = Promise.resolve();
  #settling: ReturnType<typeof setTimeout> | null = null;
  #frame = 0;
  #lastTickMs = 0;
  #heardSegment = '';

  constructor(tune: Tune, order: DrillOrder, standing: Standing) {
    this.tune = tune;
    this.order = order;
    this.standing = standing;
    this.settled = standing.settled;
    this.stretches = passageStretches(tune, order.passage);
    this.hasTab = this.stretches.some(({ figure }) => figure.strikes !== null);
    this.secondsLeft = order.minutes * 60;
    this.#takeUp(app.sitting);
    this.turn = {
      firstPass: this.passes.length + 1,
      passes: this.#turnSize(),
      tempo: this.#climb.state.tempo,
    };
  }

  /** Beats per minute of the pass that is coming or playing. */
  get tempo(): number {
    return this.phase === 'pass' || this.phase === 'count-in' ? this.turn.tempo : this.#climb.state.tempo;
  }

  get toward(): number {
    return Math.max(this.order.toward ?? this.tune.goalTempo, this.#comfortable);
  }

  /** Why the climb moved last: "three clean: up 4 %". */
  get moved(): string {
    return this.#climb.why;
  }

  get nextTempo(): number {
    return this.#climb.state.tempo;
  }

  /** The passes that this breath marks. */
  get marking(): readonly PlayedPass[] {
    return this.passes.filter(({ number }) => number >= this.turn.firstPass);
  }

  get mark(): Mark {
    return this.marking.at(-1)?.mark ?? null;
  }

  get isHandful(): boolean {
    return this.turn.passes === HANDFUL;
  }

  get isTabShown(): boolean {
    return this.hasTab && (!this.isTabHidden || this.isPeeking);
  }

  // --- what the learner does -------------------------------------------------------------------------------

  /** The one touch: begins, marks, says that it broke down, or goes on, by what is going on. */
  async touch(): Promise<void> {
    if (this.phase === 'look') await this.start();
    else if (this.phase === 'paused') this.goOn();
    else if (this.phase === 'pass') this.#breakDown();
    else if (this.phase === 'breath') this.#touchBreath();
  }

  /** Marks the pass of this breath with a word outright (three bands, or a key for each). */
  markAs(mark: Mark): void {
    if (this.phase === 'breath') this.#setMarks([mark]);
  }

  /** Changes the mark of any pass of this drill, by one word. */
  changeMark(pass: PlayedPass): void {
    this.#write(pass, nextMark(pass.mark));
    this.#queueNext();
  }

  /** Begins the first count-in. Call it within a user gesture. */
  async start(): Promise<void> {
    if (this.phase !== 'look') return;
    this.phase = 'count-in';
    try {
      const { ClickEngine, ClickUnavailable } = await import('$lib/audio/click-engine');
      this.#engine = await ClickEngine.open().catch((error: unknown) => {
        if (!(error instanceof ClickUnavailable)) throw error;
        this.silence = error.message;
        return null;
      });
      this.#drill ??= await app.beginDrill({ passage: this.order.passage, climb: app.settings.climb });
    } catch (error) {
      this.phase = 'look';
      this.trouble = `The drill could not begin: ${sentence(error)}`;
      return;
    }
    this.#engine?.setVolume(app.settings.clickVolume);
    this.#engine?.onInterrupted(() => this.pause());
    this.#lastTickMs = performance.now();
    this.#tick();
    this.#playTurn(this.passes.length + 1);
  }

  pause(): void {
    if (this.phase === 'look' || this.phase === 'done' || this.phase === 'paused') return;
    this.#engine?.stop();
    this.#stopSettling();
    this.phase = 'paused';
    this.beat = null;
    this.isPeeking = false;
  }

  /** Goes on with a count-in; the pass that the pause cut short does not count. */
  goOn(): void {
    if (this.phase !== 'paused') return;
    void this.retry();
    this.#lastTickMs = performance.now();
    this.#playTurn(this.passes.length + 1);
  }

  setTempo(tempo: number): void {
    const state = setTempoByHand(this.#climb.state, tempo);
    this.#moves = [...this.#moves, { afterPass: this.passes.length, tempo: state.tempo }];
    if (this.phase === 'look') this.turn = { ...this.turn, tempo: state.tempo };
    else this.#queueNext();
  }

  setTabHidden(isHidden: boolean): void {
    this.isTabHidden = isHidden;
    this.#hasLooked = true;
    if (!isHidden) this.#noteTabSeen();
  }

  peek(isPeeking: boolean): void {
    this.isPeeking = isPeeking;
    if (isPeeking) this.#noteTabSeen();
  }

  /** Ends the drill; what has been marked is kept. */
  async end(why: string): Promise<void> {
    if (this.phase === 'done') return;
    this.#engine?.stop();
    this.#stopSettling();
    cancelAnimationFrame(this.#frame);
    this.phase = 'done';
    this.beat = null;
    this.ended = why;
    await this.#writing;
    await this.#engine?.close();
    this.#engine = null;
  }

  /** Writes again what could not be written. */
  async retry(): Promise<void> {
    this.trouble = null;
    this.#writing = this.#writing.then(() => this.#flush());
    await this.#writing;
  }

  /** How many marks are waiting to be written. */
  get waiting(): number {
    return this.trouble ? this.#unwritten.length : 0;
  }

  // --- the climb -------------------------------------------------------------------------------------------

  get #comfortable(): number {
    return this.order.from ?? this.standing.comfortable;
  }

  /** The climb is a fold over the marks and the learner's own moves, so that a changed mark changes it too. */
  #replay(): { state: ClimbState; why: string } {
    let state = startClimb({
      kind: app.settings.climb,
      comfortable: this.#comfortable,
      toward: this.toward,
      goal: this.tune.goalTempo,
    });
    let why = '';
    const moveAfter = (count: number): void => {
      for (const { afterPass, tempo } of this.#moves) {
        if (afterPass === count) {
          state = setTempoByHand(state, tempo);
          why = '';
        }
      }
    };
    moveAfter(0);
    for (const { mark, number } of this.passes) {
      const step = nextStep(state, mark);
      state = step.state;
      why = mark === null ? why : step.move.why;
      moveAfter(number);
    }
    return { state, why };
  }

  #turnSize(): number {
    const isShort = this.stretches.length <= HANDFUL_MEASURES_MAX;
    return app.settings.handful && isShort ? HANDFUL : 1;
  }

  get #rhythm(): DrillRhythm {
    const { clickPattern, countIn, breath } = app.settings;
    return { meter: this.tune.meter, stretches: this.stretches, pattern: clickPattern, countIn, breath };
  }

  // --- the click -------------------------------------------------------------------------------------------

  #playTurn(firstPass: number): void {
    this.clean = null;
    this.turn = { firstPass, passes: this.#turnSize(), tempo: this.#climb.state.tempo };
    this.#heardSegment = '';
    if (this.#engine) this.#engine.play(turnSegments(this.turn, this.#rhythm));
    else this.#playInSilence();
  }

  /** Sends the turn after this one; sent again whenever a mark or a hand changes its tempo. */
  #queueNext(): void {
    if (this.phase === 'look' || this.phase === 'paused' || this.phase === 'done') return;
    if (!this.#engine || app.settings.breath === 'wait') return;
    this.#engine.replaceAfter(breathId(this.turn), this.#segmentsAhead());
  }

  /** The next turn, and one more of the same so that the click does not run dry while the page is held up. */
  #segmentsAhead(): Segment[] {
    const passes = this.#turnSize();
    const next: Turn = {
      firstPass: this.turn.firstPass + this.turn.passes,
      passes,
      tempo: this.#climb.state.tempo,
    };
    const spare = { ...next, firstPass: next.firstPass + passes };
    return [next, spare].flatMap((turn) => turnSegments(turn, this.#rhythm));
  }

  /** Follows what is heard: the beat, and the change from count-in to pass to breath. */
  #tick(): void {
    this.#frame = requestAnimationFrame(() => this.#tick());
    const nowMs = performance.now();
    if (this.phase !== 'paused')
      this.secondsLeft = Math.max(0, this.secondsLeft - (nowMs - this.#lastTickMs) / 1000);
    this.#lastTickMs = nowMs;
    if (this.phase === 'paused') return;
    const position = this.#engine?.now() ?? null;
    this.beat = position?.beats ?? null;
    if (!position || position.segment.id === this.#heardSegment) return;
    this.#heardSegment = position.segment.id;
    const { kind, id, tempo } = position.segment;
    const number = Number(id.split('-').at(-1));
    if (kind === 'count-in') this.#hearCountIn(number, tempo);
    else if (kind === 'pass') this.#hearPass(number);
    else this.#hearBreath();
  }

  #hearCountIn(firstPass: number, tempo: number): void {
    if (firstPass !== this.turn.firstPass) {
      if (this.#endIfDone()) return;
      this.turn = { firstPass, passes: this.#turnSize(), tempo };
      this.clean = null;
      this.#queueNext();
      void this.#learn();
    }
    this.phase = 'count-in';
    this.#hideAfterLook();
    this.#wasTabSeen = this.isTabShown;
    if (this.#unwritten.length > 0) this.#holdUntilWritten();
  }

  #hearPass(number: number): void {
    if (number > this.turn.firstPass) this.#endPass(number - 1);
    this.phase = 'pass';
  }

  #hearBreath(): void {
    this.#endPass(this.turn.firstPass + this.turn.passes - 1);
    this.phase = 'breath';
    if (app.settings.countUnmarkedAsClean) this.#setMarks(this.marking.map(() => 'clean'));
  }

  /** A pass has been played to its end: it can be marked from now on. */
  #endPass(number: number): void {
    if (this.passes.some((pass) => pass.number === number)) return;
    const { tempo } = this.turn;
    const fromMemory = !this.#wasTabSeen;
    this.passes = [
      ...this.passes,
      { number, tempo, mark: null, fromMemory, ended: momentNow(), passId: null },
    ];
    this.#wasTabSeen = this.isTabShown;
  }

  /** A touch during a pass: the click stops, the breath begins, the mark is there already. */
  #breakDown(): void {
    this.#engine?.stop();
    const number = this.passes.length + 1;
    this.#endPass(number);
    this.turn = { firstPass: number, passes: 1, tempo: this.turn.tempo };
    this.phase = 'breath';
    this.#setMarks(['broke down']);
    const breath = turnSegments(this.turn, this.#rhythm).at(-1);
    this.#heardSegment = breathId(this.turn);
    if (breath) this.#engine?.play([breath]);
    this.#queueNext();
    if (app.settings.breath === 'wait') this.#settleSoon();
  }

  #touchBreath(): void {
    if (this.isHandful) this.clean = nextHandful(this.clean);
    this.#setMarks(marksOf(this.turn.passes, nextMark(this.mark), this.clean));
  }

  #setMarks(marks: readonly Mark[]): void {
    for (const [index, pass] of this.marking.entries()) this.#write(pass, marks[index] ?? null);
    this.#queueNext();
    if (app.settings.breath === 'wait' || !this.#engine) this.#settleSoon();
  }

  /** A breath that waits ends when the mark has been left alone for a moment. */
  #settleSoon(): void {
    this.#stopSettling();
    this.#settling = setTimeout(() => {
      if (this.phase !== 'breath' || this.mark === null) return;
      if (this.#engine) {
        this.#engine.replaceAfter(breathId(this.turn), this.#segmentsAhead());
      } else if (!this.#endIfDone()) this.#playTurn(this.passes.length + 1);
    }, MARK_SETTLES_MS);
  }

  #stopSettling(): void {
    if (this.#settling !== null) clearTimeout(this.#settling);
    this.#settling = null;
  }

  /** Without a click the learner plays in their own time and marks when done. */
  #playInSilence(): void {
    this.#hideAfterLook();
    this.#wasTabSeen = this.isTabShown;
    for (let number = this.turn.firstPass; number < this.turn.firstPass + this.turn.passes; number += 1) {
      this.#endPass(number);
    }
    this.phase = 'breath';
  }

  async #learn(): Promise<void> {
    await this.#writing;
    this.settled = (await app.standingNow(this.order.passage)).settled;
  }

  #endIfDone(): boolean {
    const why = drillIsDone({
      elapsedMin: this.order.minutes - this.secondsLeft / 60,
      minutes: this.order.minutes,
      settled: this.settled,
      outcomes: this.passes.map(({ mark }) => mark).filter((mark) => mark !== null),
    });
    if (why === null) return false;
    void this.end(why);
    return true;
  }

  // --- the tab ---------------------------------------------------------------------------------------------

  /** Once, after the look, the tab is hidden; in a new passage after its first clean passes. Later it is the learner's switch. */
  #hideAfterLook(): void {
    const clean = this.passes.filter(({ mark }) => mark === 'clean').length;
    if (this.#hasLooked || this.standing.passes + clean < KNOWN_AFTER_PASSES) return;
    this.#hasLooked = true;
    if (this.hasTab && app.settings.hideTabAfterLook) this.isTabHidden = true;
  }

  #noteTabSeen(): void {
    if (this.phase === 'count-in' || this.phase === 'pass') this.#wasTabSeen = true;
  }

  // --- the log ---------------------------------------------------------------------------------------------

  /** A drill of this passage that a closed tab, or a look elsewhere, cut short in the open sitting goes on. */
  #takeUp(open: OpenSitting | null): void {
    const last = open?.drills.at(-1);
    if (!open || !last || passageKey(last.passage) !== passageKey(this.order.passage)) return;
    this.#drill = last;
    this.passes = countedPasses(open.log.filter(({ drillId }) => drillId === last.id)).map((pass, index) => ({
      number: index + 1,
      tempo: pass.tempo,
      mark: pass.outcome,
      fromMemory: pass.fromMemory,
      ended: { at: pass.at, offsetMin: pass.offsetMin },
      passId: pass.id,
    }));
  }

  #write(pass: PlayedPass, mark: Mark): void {
    if (!this.#drill) return;
    const entry = entryFor(pass, mark, this.#drill.id, momentNow(), nextId());
    if (!entry) return;
    const passId = pass.passId ?? entry.id;
    this.passes = this.passes.map((other) =>
      other.number === pass.number ? { ...other, mark, passId } : other,
    );
    this.#unwritten.push(entry);
    this.#writing = this.#writing.then(() => this.#flush());
  }

  async #flush(): Promise<void> {
    if (this.trouble) return;
    try {
      for (let entry = this.#unwritten[0]; entry; entry = this.#unwritten[0]) {
        await app.record(entry);
        this.#unwritten.shift();
      }
    } catch (error) {
      this.pause();
      this.trouble = sentence(error);
    }
  }

  /** The next pass does not begin while a mark is not on disk. */
  #holdUntilWritten(): void {
    this.#engine?.pause();
    void this.#writing.then(() => {
      if (this.phase === 'count-in') this.#engine?.resume();
    });
  }
}
