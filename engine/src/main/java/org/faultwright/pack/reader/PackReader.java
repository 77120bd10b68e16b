package org.faultwright.pack.reader;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;
import org.faultwright.pack.check.PackChecks;
import org.faultwright.pack.check.Positions;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Findings;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Slips;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Problem;
import org.faultwright.problem.SourceTexts;
import org.faultwright.problem.Span;

/**
 * Reads packs of format 1. Whatever is wrong with a file is a problem in the result, never an
 * exception. Immutable, and safe for use by several threads.
 */
public final class PackReader {

  private final Fragments fragments;

  /** A reader that finds fragments in the vocabulary that comes with the library. */
  public PackReader() {
    this(Fragments.shared());
  }

  /** A reader that finds fragments elsewhere. */
  public PackReader(Fragments fragments) {
    this.fragments = fragments;
  }

  /** Reads a file. */
  public PackReading read(Path file) {
    return read(YamlText.read(file));
  }

  /**
   * Reads a text.
   *
   * @param file what to call it in messages
   */
  public PackReading read(String file, String text) {
    return read(YamlText.of(file, text));
  }

  /** Reads a text that has been split into its nodes, and makes all checks. */
  public PackReading read(YamlText text) {
    Findings findings = new Findings();
    Sources sources = new Sources(text);
    Optional<Pack> pack = Optional.empty();
    try {
      text.problems().forEach(findings);
      if (text.root().isPresent()) {
        findFragments(text.root().get(), sources, findings);
        pack = assemble(text.root().get(), sources, findings);
      }
    } catch (Findings.Enough enough) {
      pack = Optional.empty();
    }
    if (pack.isEmpty() || findings.haveErrors()) {
      return new PackReading.Unreadable(findings.sorted(), sources.texts());
    }
    Positions at = sources.positions();
    try {
      PackChecks.problems(pack.get(), at).forEach(findings);
    } catch (Findings.Enough enough) {
      return new PackReading.Unreadable(findings.sorted(), sources.texts());
    }
    return findings.haveErrors()
        ? new PackReading.Unreadable(findings.sorted(), sources.texts())
        : new PackReading.Readable(pack.get(), at, findings.sorted(), sources.texts());
  }

  private void findFragments(YamlMap root, Sources sources, Findings findings) {
    YamlMap meant = Slips.corrected(root, PackKeys.A_PACK.keyNames());
    if (!(meant.value(PackKeys.USES.name()).orElse(null) instanceof YamlList uses)) {
      return;
    }
    for (var item : uses.items()) {
      if (!(item instanceof YamlScalar name) || !Id.isWellSpelt(name.text())) {
        continue; // Reported as the key is read.
      }
      Optional<YamlText> found = fragments.find(name.text());
      if (found.isEmpty()) {
        Optional<String> nearest = Nearest.of(name.text(), fragments.names());
        findings.accept(unknown(name, nearest));
        found = nearest.flatMap(fragments::find); // So that a slip is one problem.
      }
      if (found.isPresent() && sources.add(name.text(), found.get())) {
        found.get().problems().forEach(findings);
      }
    }
  }

  private Problem unknown(YamlScalar name, Optional<String> nearest) {
    return Problem.error(
        FormatRule.UNKNOWN_FRAGMENT.id(),
        name.at(),
        "the shared vocabulary has no fragment '" + name.text() + "'",
        nearest
            .map(n -> "did you mean '" + n + "'?")
            .orElse("it has: " + String.join(", ", fragments.names())));
  }

  private static Optional<Pack> assemble(YamlMap root, Sources sources, Findings findings) {
    Definitions definitions = new Definitions(findings);
    sources.fragments().values().forEach(f -> f.root().ifPresent(definitions::collect));
    definitions.collect(root);
    definitions.addBadNewParts();
    Scope scope = Scope.of("the pack", definitions.names(), findings);
    Assembly assembly = new Assembly(scope);
    for (Map.Entry<String, YamlText> f : sources.fragments().entrySet()) {
      Scope inside =
          Scope.of("fragment '" + f.getKey() + "'", definitions.names(), findings)
              .on(PackKeys.basis(Slips.corrected(root, PackKeys.A_PACK.keyNames()), scope));
      f.getValue()
          .root()
          .flatMap(r -> PackKeys.A_FRAGMENT.read(r, inside))
          .ifPresent(assembly::add);
    }
    Optional<Fields> pack = PackKeys.A_PACK.read(root, scope);
    return pack.flatMap(assembly::pack);
  }

  /** The text of a pack with those of its fragments. */
  private static final class Sources {
    private final YamlText pack;
    private final Map<String, YamlText> fragments = new LinkedHashMap<>();

    Sources(YamlText pack) {
      this.pack = pack;
    }

    boolean add(String name, YamlText fragment) {
      return fragments.putIfAbsent(name, fragment) == null;
    }

    Map<String, YamlText> fragments() {
      return fragments;
    }

    SourceTexts texts() {
      SourceTexts texts = pack.source();
      for (YamlText f : fragments.values()) {
        texts = texts.with(f.source());
      }
      return texts;
    }

    Positions positions() {
      Map<String, Span> spans = new LinkedHashMap<>();
      List<YamlText> all = new ArrayList<>(List.of(pack));
      all.addAll(fragments.values());
      for (YamlText text : all) {
        text.root().ifPresent(root -> Places.collect(root, spans));
      }
      return Positions.of(new Span(pack.file(), 1, 1, 1), spans);
    }
  }
}
