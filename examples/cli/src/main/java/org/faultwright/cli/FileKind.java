package org.faultwright.cli;

import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlText;

/** What a file says that it is, by the key that each kind begins with. */
enum FileKind {
  PACK("a pack"),
  FRAGMENT("a fragment"),
  CASE("a case"),
  SHOP("a shop's preferences"),
  UNKNOWN("of no kind that is known");

  private final String words;

  FileKind(String words) {
    this.words = words;
  }

  /** With its article. */
  String words() {
    return words;
  }

  /** A case names its pack with the key that packs begin with, so that its own key goes first. */
  static FileKind of(YamlText text) {
    return text.root().map(FileKind::of).orElse(UNKNOWN);
  }

  private static FileKind of(YamlMap root) {
    if (root.entry("case").isPresent() || root.entry("facts").isPresent()) {
      return CASE;
    } else if (root.entry("fragment").isPresent()) {
      return FRAGMENT;
    } else if (root.entry("shop").isPresent()) {
      return SHOP;
    }
    return root.entry("pack").isPresent() || root.entry("causes").isPresent() ? PACK : UNKNOWN;
  }
}
