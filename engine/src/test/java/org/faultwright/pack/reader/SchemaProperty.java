package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.planning.ShopReader;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Severity;

/**
 * Reader and schema, held against each other on a pack with one change somewhere in its tree: a key
 * removed or misspelt, or a value replaced by one of another form. What the reader accepts the
 * schema accepts; what the reader refuses for its form the schema refuses.
 */
class SchemaProperty {

  private static final YamlMap FULL = YamlText.read(PackReaderTest.FULL).root().orElseThrow();

  private static final YamlMap SHOP =
      YamlText.read(Path.of("../examples/shop.yaml")).root().orElseThrow();

  private static final PackReader READER = new PackReader(PackReaderTest.FRAGMENTS);

  private static final List<String> SCALARS =
      List.of(
          "5",
          "0.5",
          "-5",
          "yes",
          "35 %",
          "x8",
          "some-id",
          "Some Text",
          "2 min",
          "1 V",
          "OL",
          "0",
          ".nan",
          "");

  private static final class Change {
    private final Random random;
    private int countdown;

    Change(Random random, int at) {
      this.random = random;
      this.countdown = at;
    }

    YamlNode in(YamlNode node) {
      if (countdown-- == 0) {
        return other(node);
      } else if (node instanceof YamlMap map) {
        return new YamlMap(map.at(), map.entries().stream().flatMap(e -> in(e).stream()).toList());
      } else if (node instanceof YamlList list) {
        return new YamlList(list.at(), list.items().stream().map(this::in).toList());
      }
      return node;
    }

    private Optional<Entry> in(Entry e) {
      if (countdown-- == 0) {
        return random.nextBoolean()
            ? Optional.empty()
            : Optional.of(
                new Entry(new YamlScalar(e.key().at(), e.name() + "-x", true), e.value()));
      }
      return Optional.of(new Entry(e.key(), in(e.value())));
    }

    private YamlNode other(YamlNode node) {
      YamlScalar scalar =
          new YamlScalar(node.at(), SCALARS.get(random.nextInt(SCALARS.size())), true);
      return switch (random.nextInt(5)) {
        case 0 -> new YamlList(node.at(), List.of());
        case 1 -> new YamlMap(node.at(), List.of());
        case 2 -> new YamlList(node.at(), List.of(scalar));
        default -> scalar;
      };
    }
  }

  private static int size(YamlNode node) {
    if (node instanceof YamlMap map) {
      return 1 + map.entries().stream().mapToInt(e -> 1 + size(e.value())).sum();
    } else if (node instanceof YamlList list) {
      return 1 + list.items().stream().mapToInt(SchemaProperty::size).sum();
    }
    return 1;
  }

  private static YamlMap changed(YamlMap sound, long seed) {
    Random random = new Random(seed);
    int at = 1 + random.nextInt(size(sound) - 1);
    return (YamlMap) new Change(random, at).in(sound);
  }

  @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
  @Property(tries = 400)
  void readerAndSchema_agreeOnForm(@ForAll long seed) {
    YamlMap changed = changed(FULL, seed);
    agree(READER.read(text(changed)).problems(), SchemaContract.errors(changed));
  }

  /** The same for a shop's preferences. */
  @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
  @Property(tries = 400)
  void readerAndSchema_agreeOnFormOfShop(@ForAll long seed) {
    YamlMap changed = changed(SHOP, seed);
    List<String> ofSchema = SchemaContract.errors("shop-1.schema.json", changed);
    agree(ShopReader.read(text(changed)).problems(), ofSchema);
  }

  private static YamlText text(YamlMap root) {
    return new YamlText("f.yaml", "", Optional.of(root), List.of());
  }

  private static void agree(List<Problem> problems, List<String> ofSchema) {
    List<String> found =
        problems.stream().filter(p -> p.severity() == Severity.ERROR).map(Problem::id).toList();
    boolean ofForm = found.stream().anyMatch(ReaderProblems.structural()::contains);
    Statistics.collect(ofForm ? "form" : found.isEmpty() ? "sound" : "meaning");
    Statistics.coverage(
        c -> {
          c.check("form").percentage(p -> p > 25);
          c.check("sound").percentage(p -> p > 5);
        });
    if (ofForm) {
      assertThat(ofSchema).as("refused for " + found).isNotEmpty();
    } else if (found.isEmpty()) {
      assertThat(ofSchema).as("accepted by the reader").isEmpty();
    }
  }
}
