package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseReader;
import org.faultwright.pack.yaml.YamlAsJson;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.planning.ShopReader;
import org.faultwright.problem.Problem;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * The JSON Schemas are those of the reader's own tables, and agree with the reader wherever a
 * mistake is one of form. What ids mean and what numbers sum to is not theirs to see.
 */
class SchemaContract {

  private static final Path FOLDER = Path.of("../shared/schema");

  private static final Map<String, String> GENERATED =
      Map.of(
          "pack-1.schema.json", PackSchemas.pack(),
          "fragment-1.schema.json", PackSchemas.fragment(),
          "case-1.schema.json", CaseReader.schema(),
          "shop-1.schema.json", ShopReader.schema());

  private static final Map<String, Schema> SCHEMAS = Map.copyOf(schemas());

  private static Map<String, Schema> schemas() {
    SchemaRegistry registry = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12);
    Map<String, Schema> schemas = new HashMap<>();
    GENERATED.forEach((name, text) -> schemas.put(name, registry.getSchema(text)));
    return schemas;
  }

  static List<String> errors(YamlText text) {
    return errors(text.root().orElseThrow());
  }

  static List<String> errors(YamlMap root) {
    String kind =
        root.entry("case").isPresent()
            ? "case-1.schema.json"
            : root.entry("fragment").isPresent() ? "fragment-1.schema.json" : "pack-1.schema.json";
    return errors(kind, root);
  }

  static List<String> errors(String kind, YamlMap root) {
    return SCHEMAS.get(kind).validate(YamlAsJson.of(root)).stream().map(Error::toString).toList();
  }

  @TestFactory
  Stream<DynamicTest> committedSchema_isTheGeneratedOne() {
    return GENERATED.entrySet().stream()
        .map(
            e ->
                dynamicTest(
                    e.getKey(),
                    () -> {
                      Path fresh = Path.of("target/schema", e.getKey());
                      Files.createDirectories(fresh.getParent());
                      Files.writeString(fresh, e.getValue());
                      assertThat(FOLDER.resolve(e.getKey()))
                          .as("the keys have changed: copy engine/%s to shared/schema", fresh)
                          .hasContent(e.getValue());
                    }));
  }

  private static List<Path> yamlFiles(String... folders) throws IOException {
    List<Path> all = new ArrayList<>();
    for (String folder : folders) {
      if (Files.isDirectory(Path.of(folder))) {
        try (Stream<Path> files = Files.walk(Path.of(folder))) {
          files
              .filter(f -> f.toString().endsWith(".yaml"))
              .filter(f -> !f.toString().contains("/target/"))
              .sorted()
              .forEach(all::add);
        }
      }
    }
    return all;
  }

  @TestFactory
  Stream<DynamicTest> packsFragmentsAndCases_areAcceptedBySchema() throws IOException {
    List<Path> files =
        yamlFiles(
            "../packs", "../shared/vocabulary", "../examples/cases", "src/test/resources/reading");
    assertThat(files).hasSizeGreaterThan(10);
    return files.stream()
        .map(f -> dynamicTest(f.toString(), () -> assertThat(errors(YamlText.read(f))).isEmpty()));
  }

  @Test
  void shop_isAcceptedBySchema() {
    YamlMap shop = YamlText.read(Path.of("../examples/shop.yaml")).root().orElseThrow();
    assertThat(errors("shop-1.schema.json", shop)).isEmpty();
  }

  @TestFactory
  Stream<DynamicTest> brokenFile_isRejectedExactlyWhenItsFormIsWrong() throws IOException {
    return yamlFiles("src/test/resources/checks").stream()
        .map(YamlText::read)
        .filter(text -> text.root().isPresent())
        .map(text -> dynamicTest(text.file(), () -> agree(text)));
  }

  private static void agree(YamlText text) {
    List<String> ofForm =
        ReaderProblemsContract.problems(text).stream()
            .map(Problem::id)
            .filter(ReaderProblems.structural()::contains)
            .toList();
    if (ofForm.isEmpty()) {
      assertThat(errors(text)).isEmpty();
    } else {
      assertThat(errors(text)).as("rejected for " + ofForm).isNotEmpty();
    }
  }

  @Test
  void everyStructuralProblem_hasABrokenFile() {
    assertThat(ReaderProblems.withFixtures()).containsAll(ReaderProblems.structural());
  }
}
