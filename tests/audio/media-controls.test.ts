import { afterEach, describe, expect, it, vi } from 'vitest';
import { MediaControls } from '$lib/audio/media-controls';
import silenceUrl from '$lib/audio/silence.wav?url';

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

describe('what the lock screen shows', () => {
  it('is the title, with pause and play, while it is open', () => {
    const handlers = new Map<string, MediaSessionActionHandler | null>();
    vi.spyOn(navigator.mediaSession, 'setActionHandler').mockImplementation((action, handler) => {
      handlers.set(action, handler);
    });
    const asked: string[] = [];
    const controls = new MediaControls('Sandy Boys', 'Phrasewright', {
      onPlay: () => asked.push('play'),
      onPause: () => asked.push('pause'),
    });
    controls.setPlaying(true);
    expect(navigator.mediaSession.metadata?.title).toBe('Sandy Boys');
    expect(navigator.mediaSession.playbackState).toBe('playing');
    handlers.get('pause')?.({ action: 'pause' });
    controls.setPlaying(false);
    expect(navigator.mediaSession.playbackState).toBe('paused');
    handlers.get('play')?.({ action: 'play' });
    expect(asked).toEqual(['pause', 'play']);
    controls.close();
    expect(navigator.mediaSession.metadata).toBeNull();
    expect([...handlers.values()]).toEqual([null, null, null]);
  });

  it('is left alone by a browser that has none', () => {
    vi.stubGlobal('navigator', {});
    const controls = new MediaControls('Sandy Boys', 'Phrasewright', { onPlay: vi.fn(), onPause: vi.fn() });
    expect(() => {
      controls.setPlaying(true);
      controls.close();
    }).not.toThrow();
  });

  // browsers show a session only for media of 5 s or more (from memory: Chromium's rule)
  it('goes with a file of silence that is longer than five seconds', async () => {
    const bytes = await (await fetch(silenceUrl)).arrayBuffer();
    const buffer = await new OfflineAudioContext(1, 1, 8000).decodeAudioData(bytes);
    expect(buffer.duration).toBeGreaterThan(5);
    expect(buffer.getChannelData(0).every((sample) => sample === 0)).toBe(true);
  });
});
