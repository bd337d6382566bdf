// How our styles are read. Names of the theme (md-) are its own: block__element--modifier.
const NAME = "^(md-[a-z0-9]+(?:(?:-|--|__)[a-z0-9]+)*|[a-z][a-z0-9]*(?:-[a-z0-9]+)*)$";

export default {
  extends: ["stylelint-config-standard"],
  rules: {
    "custom-property-pattern": NAME,
    // Older tablets, as they stand at machines, do not know the newer way to write it.
    "media-feature-range-notation": "prefix",
    "selector-class-pattern": NAME,
  },
};
