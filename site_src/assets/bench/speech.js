// Says a step with a voice of the device itself, ticks, or vibrates; all off until asked for.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.speech;
  const LONGEST = 220; // characters: one short utterance a step

  /** @type {() => SpeechSynthesisVoice[]} */
  function voices() {
    if (!("speechSynthesis" in window)) return [];
    return window.speechSynthesis.getVoices().filter((each) => each.localService);
  }

  /** @type {wb.Speech["voice"]} */
  function voice() {
    const own = voices();
    const language = document.documentElement.lang || "en";
    return own.find((each) => each.lang.toLowerCase().startsWith(language)) || null;
  }

  // Needles are said as words: "L20 to R19" is "left 20 to right 19".
  /** @type {wb.Speech["spoken"]} */
  function spoken(text) {
    const words = text.replace(/\bL(\d+)\b/g, "left $1").replace(/\bR(\d+)\b/g, "right $1")
      .replace(/\s+/g, " ").trim();
    if (words.length <= LONGEST) return words;
    const cut = words.slice(0, LONGEST);
    return cut.slice(0, Math.max(cut.lastIndexOf(". ") + 1, cut.lastIndexOf(", ")) || LONGEST);
  }

  // Returns true when a voice of the device says it; a remote voice is never used.
  /** @type {wb.Speech["say"]} */
  function say(text) {
    const own = voice();
    if (!own) return false;
    const words = new SpeechSynthesisUtterance(spoken(text));
    words.voice = own;
    words.lang = own.lang;
    window.speechSynthesis.cancel();
    window.speechSynthesis.speak(words);
    return true;
  }

  function hush() {
    if ("speechSynthesis" in window) window.speechSynthesis.cancel();
  }

  /** @type {AudioContext | null} */
  let sounds = null;

  function tick() {
    try {
      sounds = sounds || new AudioContext();
      const note = sounds.createOscillator();
      const volume = sounds.createGain();
      volume.gain.setValueAtTime(0.2, sounds.currentTime);
      volume.gain.exponentialRampToValueAtTime(0.001, sounds.currentTime + 0.05);
      note.frequency.value = 900;
      note.connect(volume).connect(sounds.destination);
      note.start();
      note.stop(sounds.currentTime + 0.05);
    } catch {
      sounds = null;
    }
  }

  function vibrate() {
    return "vibrate" in navigator && navigator.vibrate(40);
  }

  const NO_VOICE = texts.thisDeviceHas;

  if ("speechSynthesis" in window) voices(); // some browsers load their list at the first question
  walebook.speech = { say, hush, tick, vibrate, spoken, voice, NO_VOICE };
}(window.walebook = window.walebook || {}));
