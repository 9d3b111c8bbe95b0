import type { Segment } from '$lib/audio/click-engine';
import { doubtOf, setTempoByHand, type ClimbStart } from '$lib/core/practice/climb';
import { climbAfter, type HandMove } from '$lib/core/practice/climb-course';
import { drillIsDone } from '$lib/core/practice/drill-end';
import {
  entryFor,
  marksOf,
  playedPasses,
  type DrillPhase,
  type PlayedPass,
} from '$lib/core/practice/drill-log';
import { breathId, turnSegments, type DrillRhythm, type Turn } from '$lib/core/practice/drill-segments';
import { HANDFUL, HANDFUL_MEASURES_MAX, nextHandful, nextMark, type Mark } from '$lib/core/practice/marking';
import type { Drill } from '$lib/core/practice/records';
import type { SettledTempo, Standing } from '$lib/core/practice/standing';
import { tabMissing, type TabMissing } from '$lib/core/pluck/tab-missing';
import { writingOf, type Writing } from '$lib/core/tune/shared-measures';
import { passageKey } from '$lib/core/tune/passage';
import { passageName } from '$lib/core/tune/passage-name';
import { passageStretches, type Stretch } from '$lib/core/tune/places';
import type { Id, Tune } from '$lib/core/tune/tune';
import type { OpenSitting } from '$lib/store/book-store';
import { say } from '$lib/texts/sound-device';
import { app } from './app.svelte';
import { logMoment } from './clock';
import type { DrillOrder } from './drill-link';
import { forgetDrillUnderWay, keepDrillUnderWay } from './drill-under-way';
import { drillRhythm } from './drill-rhythm';
import { DrillClick } from './drill-click.svelte';
import { Hearing } from './hearing.svelte';
import { nextId } from './ids';
import { marks } from './mark-writer.svelte';
import { sentence } from './sentence';
import { SettleTimer } from './settle-timer';
import { SoundDevice } from './sound-device.svelte';
import { TabCover } from './tab-cover.svelte';

/** A passage that has been played this often needs only a look at its tab. */
const KNOWN_AFTER_PASSES = 2;

/**
 * One drill, from the first look at the tab to its end. It listens to the click, moves the climb, and writes each mark
 * to the book before the next count-in. The click plays from what was sent ahead: nothing here can move it.
 */
export class DrillRun {
  phase: DrillPhase = $state('look');
  passes: readonly PlayedPass[] = $state.raw([]);
  /** What the touches of this breath have counted to in a handful; `null`: unmarked. */
  clean: number | null = $state(null);
  turn: Turn = $state.raw({ firstPass: 1, passes: 1, tempo: 60 });
  secondsLeft = $state(0);
  /** Why the drill ended, in a sentence. */
  ended = $state('');
  /** Why the drill could not begin. */
  refusal: string | null = $state(null);

  readonly writer = marks;
  readonly #device = new SoundDevice({
    onInterrupted: () => {
      this.hearing.stop();
      this.pause();
    },
    onAskedToPlay: () => (this.phase === 'look' ? void this.hearing.again() : this.goOn()),
  });
  /** The passage played to the learner, before and between the passes. */
  readonly hearing = new Hearing(this.#device);
  readonly #click = new DrillClick(this.#device, {
    onHeard: (kind, number, tempo) => this.#hear(kind, number, tempo),
    onFrame: (elapsedSec) => this.#pass(elapsedSec),
  });
  readonly tune: Tune;
  readonly order: DrillOrder;
  readonly standing: Standing;
  readonly stretches: readonly Stretch[];
  readonly writing: Writing | null;
  /** What of it cannot be heard for want of tab. */
  readonly missing: TabMissing | null;
  readonly cover: TabCover;
  /** What the passage is settled at, the passes of this drill included as they come in. */
  settled: SettledTempo | null = null;

  #moves: readonly HandMove[] = $state.raw([]);
  readonly #climb = $derived(climbAfter(this.#start, this.passes, this.#moves));
  #drill: Drill | null = null;
  /** Ends a breath that waits, and one in silence. */
  readonly #settling = new SettleTimer(() => this.#settle());

  constructor(tune: Tune, order: DrillOrder, standing: Standing) {
    this.tune = tune;
    this.order = order;
    this.standing = standing;
    this.settled = standing.settled;
    this.stretches = passageStretches(tune, order.passage);
    this.writing = writingOf(this.stretches.map(({ figure }) => figure));
    this.missing = tabMissing(tune, order.passage);
    this.cover = new TabCover(this.writing !== null);
    this.secondsLeft = order.minutes * 60;
    this.writer.tell(() => this.pause());
    this.#takeUp(app.sitting);
    this.turn = {
      firstPass: this.passes.length + 1,
      passes: this.#turnSize(),
      tempo: this.#climb.state.tempo,
    };
  }

  get beat(): number | null {
    return this.hearing.isOn ? this.hearing.beat : this.#click.beat;
  }

  /** Why there is no click, and the drill goes on in silence, or a weaker one. */
  get silence(): string | null {
    return this.#device.silence ?? this.#device.notice;
  }

  /** The sitting that it is played in; `null` before it has begun. */
  get sittingId(): Id | null {
    return this.#drill?.sittingId ?? null;
  }

  /** Beats per minute of the pass that is coming, playing, or being marked. */
  get tempo(): number {
    return this.phase === 'look' || this.phase === 'paused' ? this.nextTempo : this.turn.tempo;
  }

  /** The passes before the ones being marked. */
  get earlier(): readonly PlayedPass[] {
    return this.passes.filter(({ number }) => number < this.turn.firstPass);
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

  // --- what the learner does -------------------------------------------------------------------------------

  /** The one touch: begins, marks, says that it broke down, or goes on, by what is going on. */
  async touch(): Promise<void> {
    if (this.phase === 'look') await this.start();
    else if (this.phase === 'paused') this.goOn();
    else if (this.phase === 'pass') this.#breakDown();
    else if (this.phase === 'breath') this.#touchBreath();
  }

  /** "Hear it": plays the passage, and pauses a drill under way for it; the next call stops it. Call it within a user gesture. */
  async toggleHearing(): Promise<void> {
    if (this.hearing.isOn) return this.hearing.stop();
    this.pause();
    await this.hearing.hear({ tune: this.tune, passage: this.order.passage, slow: this.nextTempo });
  }

  /** Settings were changed: volumes and sound at once, pattern and swing from the next beat, the rest from the next turn. */
  followSettings(): void {
    this.#device.choose(app.settings);
    this.#click.change({ pattern: app.settings.clickPattern, swing: app.settings.swing });
    this.#queueNext();
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
    // marks of a drill before this one may wait still
    if (!(await this.writer.clear()) || this.phase !== 'look') return;
    this.hearing.stop();
    this.refusal = null;
    this.phase = 'count-in';
    const detail = passageName(this.tune, this.order.passage);
    try {
      await this.#click.open(app.settings, { title: this.tune.title, detail });
      this.#drill ??= await app.beginDrill({ passage: this.order.passage, climb: app.settings.climb });
      keepDrillUnderWay(this.#drill.sittingId, this.order);
    } catch (error) {
      this.phase = 'look';
      this.refusal = say.drillRefused(sentence(error));
      return;
    }
    // it may have been paused or ended meanwhile
    if ((this.phase as DrillPhase) === 'count-in') this.#playTurn(this.passes.length + 1);
  }

  pause(): void {
    if (this.phase === 'look' || this.phase === 'done' || this.phase === 'paused') return;
    this.#click.stop();
    this.#settling.stop();
    this.phase = 'paused';
    this.cover.peek(false);
  }

  /** Goes on with a count-in; the pass that the pause cut short does not count. A sitting that is over by now is not gone on with. */
  goOn(): void {
    if (this.phase !== 'paused') return;
    if (this.#drill?.sittingId !== app.sitting?.sitting.id) return void this.#beginAnew();
    this.hearing.stop();
    this.phase = 'count-in';
    void this.writer.retry();
    this.#playTurn(this.passes.length + 1);
  }

  async #beginAnew(): Promise<void> {
    if (!(await this.writer.clear())) return;
    this.#drill = null;
    this.passes = [];
    this.#moves = [];
    this.phase = 'look';
    await this.start();
  }

  /** Moves the tempo of the next pass by hand, so many beats a minute. */
  moveTempo(step: number): void {
    const { tempo } = setTempoByHand(this.#climb.state, this.#climb.state.tempo + step);
    this.#moves = [...this.#moves, { afterPass: this.passes.length, tempo }];
    if (this.phase === 'look') this.turn = { ...this.turn, tempo };
    else this.#queueNext();
  }

  /** Ends the drill; what has been marked is kept. */
  async end(why: string): Promise<void> {
    if (this.phase === 'done') return;
    this.#settling.stop();
    this.phase = 'done';
    this.ended = why;
    forgetDrillUnderWay();
    this.hearing.release();
    await this.writer.settled();
    await this.#click.close();
  }

  // --- the climb -------------------------------------------------------------------------------------------

  get #comfortable(): number {
    return this.order.from ?? this.standing.comfortable;
  }

  get #start(): ClimbStart {
    const tempos = { comfortable: this.#comfortable, toward: this.toward, goal: this.tune.goalTempo };
    const passage = { measures: this.stretches.length, doubt: doubtOf(this.standing) };
    return { kind: app.settings.climb, ...tempos, ...passage };
  }

  #turnSize(): number {
    const isShort = this.stretches.length <= HANDFUL_MEASURES_MAX;
    return app.settings.handful && isShort ? HANDFUL : 1;
  }

  get #rhythm(): DrillRhythm {
    return drillRhythm(this.tune, this.stretches, app.settings);
  }

  // --- the click -------------------------------------------------------------------------------------------

  #playTurn(firstPass: number): void {
    this.clean = null;
    this.turn = { firstPass, passes: this.#turnSize(), tempo: this.#climb.state.tempo };
    if (this.#click.isSilent) return this.#playInSilence();
    const ahead = app.settings.breath === 'wait' ? [] : this.#segmentsAhead();
    this.#click.play([...turnSegments(this.turn, this.#rhythm), ...ahead]);
  }

  /** Sends the turn after this one; sent again whenever a mark or a hand changes its tempo. */
  #queueNext(): void {
    if (this.phase === 'look' || this.phase === 'paused' || this.phase === 'done') return;
    if (app.settings.breath === 'wait') return;
    this.#click.replaceAfter(breathId(this.turn), this.#segmentsAhead());
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

  #hear(kind: Segment['kind'], number: number, tempo: number): void {
    if (this.phase === 'paused' || this.phase === 'done') return;
    if (kind === 'count-in') this.#hearCountIn(number, tempo);
    else if (kind === 'pass') this.#hearPass(number);
    else this.#hearBreath();
  }

  #pass(elapsedSec: number): void {
    if (this.phase !== 'paused' && this.phase !== 'look')
      this.secondsLeft = Math.max(0, this.secondsLeft - elapsedSec);
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
    this.#endLook();
    this.cover.beginPass();
    // the next pass does not begin while a mark is not on disk
    if (this.writer.waiting > 0)
      this.#click.holdUntil(this.writer.settled(), () => this.phase === 'count-in');
  }

  /** After the look the tab is covered; in a new passage, after its first clean passes. */
  #endLook(): void {
    const clean = this.passes.filter(({ mark }) => mark === 'clean').length;
    const isKnown = this.standing.passes + clean >= KNOWN_AFTER_PASSES;
    if (this.writing && app.settings.hideTabAfterLook && isKnown) this.cover.coverAfterLook();
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
    const fromMemory = !this.cover.wasSeen;
    this.passes = [
      ...this.passes,
      { number, tempo, mark: null, fromMemory, ended: logMoment(), passId: null },
    ];
    this.cover.beginPass();
  }

  /** A touch during a pass: the click stops, the breath begins, the mark is there already. */
  #breakDown(): void {
    this.#click.stop();
    const number = this.passes.length + 1;
    this.#endPass(number);
    this.turn = { firstPass: number, passes: 1, tempo: this.turn.tempo };
    this.phase = 'breath';
    this.#setMarks(['broke down']);
    this.#click.playOn(turnSegments(this.turn, this.#rhythm).slice(-1));
    this.#queueNext();
    if (app.settings.breath === 'wait') this.#settling.begin();
  }

  #touchBreath(): void {
    if (this.isHandful) this.clean = nextHandful(this.clean);
    this.#setMarks(marksOf(this.turn.passes, nextMark(this.mark), this.clean));
  }

  #setMarks(marks: readonly Mark[]): void {
    for (const [index, pass] of this.marking.entries()) this.#write(pass, marks[index] ?? null);
    this.#queueNext();
    if (app.settings.breath === 'wait' || this.#click.isSilent) this.#settling.begin();
  }

  #settle(): void {
    if (this.phase !== 'breath' || this.mark === null) return;
    if (!this.#click.isSilent) this.#click.replaceAfter(breathId(this.turn), this.#segmentsAhead());
    else if (!this.#endIfDone()) this.#playTurn(this.passes.length + 1);
  }

  /** Without a click the learner plays in their own time and marks when done. */
  #playInSilence(): void {
    this.#endLook();
    this.cover.beginPass();
    for (let number = this.turn.firstPass; number < this.turn.firstPass + this.turn.passes; number += 1) {
      this.#endPass(number);
    }
    this.phase = 'breath';
  }

  async #learn(): Promise<void> {
    await this.writer.settled();
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

  // --- the log ---------------------------------------------------------------------------------------------

  /** A drill of this passage that a closed tab, or a look elsewhere, cut short in the open sitting goes on. */
  #takeUp(open: OpenSitting | null): void {
    const last = open?.drills.at(-1);
    if (!open || !last || passageKey(last.passage) !== passageKey(this.order.passage)) return;
    this.#drill = last;
    this.passes = playedPasses(open.log, last.id);
  }

  #write(pass: PlayedPass, mark: Mark): void {
    if (!this.#drill) return;
    const entry = entryFor(pass, mark, this.#drill.id, logMoment(), nextId());
    if (!entry) return;
    const passId = pass.passId ?? entry.id;
    this.passes = this.passes.map((other) =>
      other.number === pass.number ? { ...other, mark, passId } : other,
    );
    this.writer.write(entry);
  }
}
