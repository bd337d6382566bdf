// How our scripts are read by eslint. Names that are not there, and kinds, are tsc's.
import js from "@eslint/js";
import readerTexts from "./reader_texts.js";

const ROOMS = {
  "complexity": ["error", 12],
  "max-depth": ["error", 4],
  "max-lines": ["error", 300],
  "max-lines-per-function": ["error", 50], // what only wraps a file and is called at once is none
  "max-params": ["error", 6],
};

const HABITS = {
  "consistent-return": "error",
  "curly": ["error", "multi-line"],
  "eqeqeq": "error",
  "no-alert": "error",
  "no-console": "error",
  "no-eval": "error",
  "no-implied-eval": "error",
  "no-param-reassign": "error",
  "no-shadow": "error",
  "no-undef": "off",
  "no-var": "error",
  "object-shorthand": "error",
  "prefer-const": "error",
  "prefer-template": "error",
  "strict": ["error", "safe"],
};

const TEXTS = ["site_src/**/texts.js", "site_src/**/*-texts.js"];

export default [
  { files: [".ci/*.js"], ...js.configs.recommended },
  {
    files: ["site_src/**/*.js"],
    ...js.configs.recommended,
    languageOptions: { ecmaVersion: 2022, sourceType: "script" },
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: { ...js.configs.recommended.rules, ...ROOMS, ...HABITS },
  },
  {
    // What a reader reads stands in the files of texts, which other scripts of the page name.
    files: ["site_src/assets/**/*.js", "site_src/.worker/*.js"],
    ignores: TEXTS,
    plugins: { walebook: { rules: { "reader-texts": readerTexts } } },
    rules: { "walebook/reader-texts": "error" },
  },
  {
    files: TEXTS,
    rules: { "no-unused-vars": ["error", { vars: "local" }], "strict": "off" },
  },
  {
    files: ["site_src/**/*.mjs"],
    ...js.configs.recommended,
    languageOptions: { ecmaVersion: 2022, sourceType: "module" },
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: { ...js.configs.recommended.rules, ...ROOMS, ...HABITS },
  },
  {
    // It stands in each page, where every line counts, and does but one thing.
    files: ["site_src/.overrides/.scripts/*.js"],
    rules: { "strict": "off" },
  },
  {
    // A worker that is a module, so that it can load the runtime's.
    // Its parts are one script when they are published: what one names another may use.
    files: ["site_src/.runtime/*.js"],
    rules: { "no-unused-vars": ["error", { vars: "local" }], "strict": "off" },
  },
  {
    // Its parts are one script when they are published: what one names another may use.
    files: ["site_src/.worker/*.js"],
    rules: { "no-unused-vars": ["error", { vars: "local" }], "strict": "off" },
  },
];
