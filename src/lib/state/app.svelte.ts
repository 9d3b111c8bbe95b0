import type { Book, BookCounts } from '$lib/core/book/book';
import type { SettingName, Settings } from '$lib/core/book/settings';
import {
  PLAN_MINUTES_MAX,
  PLAN_MINUTES_MIN,
  type Plan,
  type PlanItem,
  type PlanRequest,
} from '$lib/core/plan/plan';
import type { Explanation } from '$lib/core/plan/explain';
import type { PlanWishes } from '$lib/core/plan/wishes';
import type { Drill, Hands, LogEntry, SealedSitting } from '$lib/core/practice/records';
import { minutesSinceRest, minutesSpent } from '$lib/core/practice/sitting';
import type { Standing } from '$lib/core/practice/standing';
import type { Moment } from '$lib/core/time/moment';
import type { Passage, PassageKey } from '$lib/core/tune/passage';
import type { Id, Tune } from '$lib/core/tune/tune';
import { say as sayCommon } from '$lib/texts/common';
import { say } from '$lib/texts/app';
import type { BackupNotebook } from '$lib/store/backup-notes';
import type {
  AsideRow,
  BookStore,
  OpenSitting,
  SecondCopyState,
  StoreTrouble,
  TableName,
} from '$lib/store/book-store';
import { BOOK_NAME } from '$lib/store/book-name';
import type { Draft } from '$lib/store/drafts';
import type { PracticeClient } from '$lib/workers/practice-client';
import { chosenLayers } from './chosen-layers.svelte';
import { momentNow } from './clock';
import { backupJob } from './backup-job';
import { DayWishes } from './day-wishes.svelte';
import { forgetDrillUnderWay } from './drill-under-way';
import { FoldedLog } from './folded-log.svelte';
import { keepGlimpse, readGlimpse } from './glimpse';
import { KeptSettings } from './kept-settings.svelte';
import { OwnChanges } from './own-changes';
import { sentence } from './sentence';
import { SittingAtHand } from './sitting-at-hand.svelte';
import { waitingWrites } from './waiting-writes.svelte';

/** The tables that make the open sitting. */
const OPEN_TABLES = ['sitting', 'drills', 'passes'] as const;
/** A passage is explained by what was played of its tune in so many of the newest sittings. */
const EXPLAINED_SITTINGS = 60;
const ALL_TABLES: ReadonlySet<TableName> = new Set(['tunes', 'settings', ...OPEN_TABLES]);

/** What went wrong with the book as a whole, in sentences: what failed, and what is safe. */
export interface AppTrouble {
  what: string;
  safe: string | undefined;
}

/**
 * The open book: joins store and practice worker, and holds what every screen reads. One instance, made in
 * `app` below; screens never see the store.
 */
export class App {
  phase: 'opening' | 'ready' | 'trouble' = $state('opening');
  trouble: AppTrouble | null = $state.raw(null);
  /** What could still be read of a book that could not be opened, as a backup file. */
  rescued: File | null = $state.raw(null);
  /** One sentence to be said once: a restored book, a closed sitting. */
  notice: string | null = $state(null);
  tunes: readonly Tune[] = $state.raw([]);
  readonly #settings = new KeptSettings(readGlimpse()?.settings ?? null, (row) =>
    this.#openStore.putSetting(row),
  );
  readonly #atHand = new SittingAtHand(
    () => this.#openStore,
    () => this.settings,
    () => this.#quietly(this.refreshPlan()),
  );
  plan: Plan | null = $state.raw(readGlimpse()?.plan ?? null);
  readonly log = new FoldedLog({
    store: () => this.#openStore,
    dayStartsAtHour: () => this.settings.dayStartsAtHour,
    onFolded: () => this.#quietly(this.refreshPlan()),
    onDamaged: () => this.#quietly(this.lookThrough(new AbortController().signal)),
  });
  /** True once the plan shown was made from the log as it stands (until then it is the last one kept). */
  isPlanFresh = $state(false);
  readonly wishes = new DayWishes(
    () => this.settings.dayStartsAtHour,
    () => this.#quietly(this.refreshPlan()),
  );

  /** Tunes in the repertoire: neither deleted nor put away. */
  readonly repertoire = $derived(this.tunes.filter((tune) => !tune.archived && tune.deletedAt === null));

  #store: BookStore | null = null;
  #opened: Promise<void> | null = null;
  readonly #own = new OwnChanges<TableName>((tables) => this.#hearChange(tables));

  get settings(): Settings {
    return this.#settings.now;
  }

  /** The sitting that is open, in whatever tab it was begun. */
  get sitting(): OpenSitting | null {
    return this.#atHand.open;
  }

  get hands(): Hands {
    return this.#atHand.hands;
  }

  /** Opens the book, once the first screen has been painted; later calls wait for the first. */
  open(): Promise<void> {
    this.#opened ??= this.#open();
    return this.#opened;
  }

  async #open(): Promise<void> {
    try {
      await painted();
      this.log.warmUp();
      const { BookStore } = await import('$lib/store/book-store');
      const store = await BookStore.open();
      this.#store = store;
      const [tunes, settings, sitting] = await Promise.all([
        store.tunes(),
        store.settings(),
        store.openSitting(),
      ]);
      this.tunes = tunes;
      this.#settings.read(settings);
      this.#atHand.read(sitting);
      this.notice = store.recovered;
      this.phase = 'ready';
      store.onChange((tables) => {
        // a sign of room
        void waitingWrites.tryAll();
        this.#own.heard(tables);
      });
      store.onSuperseded(() => this.#giveWay());
      // a device that has no room to close the sitting can still show the book
      await this.#atHand.sealIfOver().catch((error: unknown) => this.#sayStale(error));
      this.#quietly(this.#settings.flush());
      this.#quietly(this.refreshPlan().then(() => (store.damaged > 0 ? this.#noteAside() : [])));
    } catch (error) {
      this.#fail(error);
      const { secondCopyFile } = await import('./rescue');
      this.rescued = await secondCopyFile();
    }
  }

  #giveWay(): void {
    this.phase = 'trouble';
    this.trouble = { what: say.newerElsewhere, safe: sayCommon.marksInBook };
  }

  #fail(error: unknown): void {
    this.phase = 'trouble';
    this.trouble = isStoreTrouble(error)
      ? { what: error.message, safe: error.safe }
      : { what: say.notOpened(sentence(error)), safe: say.contentsUnchanged };
  }

  /** The store; screens reach it through the methods below. Throws before `open` has finished. */
  get #openStore(): BookStore {
    if (!this.#store) throw new Error('The book is not open yet: await app.open() first.');
    return this.#store;
  }

  tune(id: Id | null): Tune | null {
    return this.tunes.find((tune) => tune.id === id) ?? null;
  }

  // --- practice: standings, plan, boards -------------------------------------------------------------------

  /** The practice worker, loaded with the book as it stands. */
  practice(): Promise<PracticeClient> {
    return this.log.client();
  }

  /** How often the log has been folded anew: what a screen read from the practice worker is stale when this moves. */
  get folds(): number {
    return this.log.folds;
  }

  /** What the log says of a passage at this moment, the newest pass of the open sitting included. */
  standingNow(passage: Passage): Promise<Standing> {
    return this.log.standing(passage, this.sitting);
  }

  /** Why a passage stands where it stands, with the newest passes behind it. */
  async explain(passage: Passage): Promise<Explanation> {
    await this.open();
    const newest = await this.#openStore.sittingsOf(passage.tuneId, EXPLAINED_SITTINGS);
    const practice = this.sitting ? await this.log.take(this.sitting) : await this.practice();
    if (this.sitting) {
      const { sealOpen } = await import('$lib/store/open-sitting');
      newest.push(sealOpen(this.sitting));
    }
    return practice.explain(passage, momentNow(), newest);
  }

  planRequest(): PlanRequest {
    return {
      now: momentNow(),
      minutes: Math.min(PLAN_MINUTES_MAX, Math.max(PLAN_MINUTES_MIN, this.minutesLeft())),
      tuning: this.settings.tuning,
      hands: this.hands,
      sinceRest: this.sitting ? minutesSinceRest(this.sitting, momentNow()) : 0,
    };
  }

  /** Whole minutes of the sitting that are left, those of the check-in before it begins; 0 when they are used up. */
  minutesLeft(): number {
    if (!this.sitting) return this.settings.minutes;
    const spent = minutesSpent(this.sitting, momentNow());
    return Math.max(0, Math.round(this.sitting.sitting.minutes - spent));
  }

  async refreshPlan(): Promise<void> {
    if (this.log.isWhole) await this.#makePlan();
    // until the log has been folded for the first time the plan waits for it, and nobody for the plan
    else this.#quietly(this.#makePlan());
  }

  async #makePlan(): Promise<void> {
    const practice = await this.practice();
    const plan = await practice.plan(this.planRequest(), this.wishes.now);
    this.plan = plan;
    this.isPlanFresh = true;
    keepGlimpse({ plan, settings: this.settings });
  }

  /** Changes what the learner wishes of today, and plans the rest around it. */
  async wish(change: (wishes: PlanWishes) => PlanWishes): Promise<void> {
    await this.open();
    this.wishes.change(change);
    await this.refreshPlan();
  }

  /** What could take the place of a planned passage. */
  async alternativesTo(key: PassageKey): Promise<PlanItem[]> {
    await this.open();
    return (await this.practice()).alternatives(this.planRequest(), this.wishes.now, key);
  }

  // --- tunes -----------------------------------------------------------------------------------------------

  async saveTune(tune: Tune): Promise<void> {
    await this.#change((store) => store.putTune(tune));
  }

  /** Changes a tune as the book holds it at that moment, whatever other tabs wrote meanwhile. */
  async updateTune(id: Id, change: (tune: Tune) => Tune): Promise<void> {
    await this.#change((store) => store.updateTune(id, change));
  }

  archive({ id }: Tune, archived: boolean): Promise<void> {
    return this.updateTune(id, (tune) => ({ ...tune, archived, editedAt: momentNow().at }));
  }

  /** Marks a tune deleted; its passes stay in the log and `bringBack` undoes it. */
  deleteTune({ id }: Tune): Promise<void> {
    const { at } = momentNow();
    return this.updateTune(id, (tune) => ({ ...tune, deletedAt: at, editedAt: at }));
  }

  bringBack({ id, archived }: Tune): Promise<void> {
    return this.updateTune(id, (tune) => ({ ...tune, archived, deletedAt: null, editedAt: momentNow().at }));
  }

  /** What was written of one thing on this device and not saved. */
  draftsOf(thing: string): Promise<Draft[]> {
    return this.#openStore.drafts.of(thing);
  }

  /** Keeps it; with `null` no more. */
  keepDraft(name: string, draft: unknown): Promise<void> {
    return this.#openStore.drafts.keep(name, draft);
  }

  // --- settings --------------------------------------------------------------------------------------------

  /** Shown at once; resolves when it is on disk or waits for room on this page. Rejects when the book refuses it. */
  async set<Name extends SettingName>(key: Name, value: Settings[Name]): Promise<void> {
    const writing = this.#settings.set(key, value);
    keepGlimpse({ plan: this.plan, settings: this.settings });
    await Promise.all([writing, this.#follow(key)]);
  }

  async #follow(key: SettingName): Promise<void> {
    if (key === 'dayStartsAtHour') await this.#takeIn();
    else if (key === 'minutes' || key === 'tuning') await this.refreshPlan();
  }

  async setHands(hands: Hands): Promise<void> {
    await this.#atHand.setHands(hands);
    await this.refreshPlan();
  }

  // --- the sitting -----------------------------------------------------------------------------------------

  beginDrill(drill: Omit<Drill, 'id' | 'sittingId' | keyof Moment>): Promise<Drill> {
    return this.#atHand.beginDrill(drill);
  }

  /** Writes one entry of the log; resolves when it is on disk. Rejects with a StoreTrouble that says why it is not. */
  record(entry: LogEntry): Promise<void> {
    return this.#atHand.record(entry);
  }

  /** Keeps a sitting's line of notes as `mine`, in an edit that began from `before`; nothing of what another tab wrote is lost. */
  setNote(sittingId: Id, before: string, mine: string): Promise<void> {
    return this.#atHand.setNote(sittingId, before, mine);
  }

  /** Closes the sitting and folds it in. */
  async endSitting(): Promise<SealedSitting | null> {
    if (!this.sitting) return null;
    return this.#own.make(
      () => this.#openStore.seal(momentNow().at),
      async (sealed) => {
        await this.#reread(ALL_TABLES);
        await this.log.seal(sealed);
        await this.refreshPlan();
      },
    );
  }

  /** The page is in sight again: as `comeBack`, with its trouble said on Today. */
  returnToSight(): void {
    void waitingWrites.tryAll();
    this.#quietly(this.comeBack());
  }

  /** Perhaps days have gone by: a sitting that is over is closed, and Today is of today. */
  async comeBack(): Promise<void> {
    if (this.phase !== 'ready') return;
    const sealed = await this.#atHand.sealIfOver();
    if (sealed) await this.log.seal(sealed);
    await this.refreshPlan();
  }

  // --- the whole book --------------------------------------------------------------------------------------

  /** What this device knows of its backups. Throws before `open` has finished. */
  get backups(): BackupNotebook {
    return this.#openStore.backups;
  }

  /** Lets a worker change the book, then shows and folds what it has become. */
  changeBeside<T>(work: () => Promise<T>): Promise<T> {
    return this.#change(work);
  }

  /** Merges a book in: one transaction or nothing. */
  async mergeIn(book: Book): ReturnType<BookStore['mergeIn']> {
    return this.#change((store) => store.mergeIn(book));
  }

  async removeDemo(): Promise<void> {
    await this.#change((store) => store.removeDemo());
  }

  async eraseAll(): Promise<void> {
    this.wishes.forget();
    this.#settings.forget();
    waitingWrites.forget();
    this.#atHand.forget();
    chosenLayers.forget();
    forgetDrillUnderWay();
    await this.#change((store) => store.eraseAll());
  }

  /** Asks the browser to keep the book for good: its answer, or `null` where it cannot be asked. */
  persist(): Promise<boolean | null> {
    return this.#openStore.persist();
  }

  /** Whether the browser has promised that already; `null` where it cannot be asked. */
  isPersisted(): Promise<boolean | null> {
    return this.#openStore.isPersisted();
  }

  get secondCopy(): SecondCopyState {
    return this.#openStore.secondCopy;
  }

  /** What the book holds, and the damaged records, after a look at every one. Rejects with the signal's reason once called off. */
  async lookThrough(signal: AbortSignal): Promise<{ counts: BookCounts; aside: AsideRow[] }> {
    const { counts, damaged } = await backupJob(signal, 'look', { book: BOOK_NAME });
    await this.#openStore.lookAt(damaged);
    return { counts, aside: await this.#noteAside() };
  }

  /** Sets aside what was met damaged, shows what came back for it, and says so once. */
  async #noteAside(): Promise<AsideRow[]> {
    const { rows, said } = await this.#openStore.setAside();
    if (said !== null) {
      this.notice = said;
      await this.#takeIn();
    }
    return rows;
  }

  removeAside(row: AsideRow): Promise<void> {
    return this.#openStore.removeAside(row);
  }

  /** Changes the book, then shows and folds what it has become. */
  #change<T>(work: (store: BookStore) => Promise<T>): Promise<T> {
    return this.#own.make(
      () => work(this.#openStore),
      () => this.#takeIn(),
    );
  }

  async #takeIn(): Promise<void> {
    // that there is nothing to plan was said of the book before
    if (this.plan?.items.length === 0) this.isPlanFresh = false;
    await this.#reread(ALL_TABLES);
    await this.log.reload();
    await this.refreshPlan();
  }

  /** Another tab, or a write of this one, has changed these tables. */
  #hearChange(tables: ReadonlySet<TableName>): void {
    const isNewLog = tables.has('tunes') || tables.has('sittings');
    this.#quietly(isNewLog ? this.#takeIn() : this.#reread(tables));
  }

  /** Lets work go on that nobody waits for; its trouble is said on Today and stops nothing. */
  #quietly(work: Promise<unknown>): void {
    work.catch((error: unknown) => this.#sayStale(error));
  }

  #sayStale(error: unknown): void {
    this.notice = say.stale(sentence(error));
  }

  /** Reads again what another tab, or this one, has changed. */
  async #reread(tables: ReadonlySet<TableName>): Promise<void> {
    const store = this.#openStore;
    if (tables.has('tunes')) this.tunes = await store.tunes();
    if (tables.has('settings')) this.#settings.read(await store.settings());
    if (!OPEN_TABLES.some((table) => tables.has(table))) return;
    const open = await store.openSitting();
    const isNews = this.#atHand.read(open);
    if (isNews && open && (await this.log.follow(open))) await this.refreshPlan();
  }
}

/** The class itself is loaded with the store, after the first paint. */
function isStoreTrouble(error: unknown): error is StoreTrouble {
  return error instanceof Error && error.name === 'StoreTrouble';
}

/** Resolves after the next paint; soon, where nothing is painted because the page is hidden. */
function painted(): Promise<void> {
  const hiddenMs = 200;
  return new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve));
    setTimeout(resolve, hiddenMs);
  });
}

/** The app's one open book. */
export const app = new App();
