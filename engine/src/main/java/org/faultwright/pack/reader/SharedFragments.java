package org.faultwright.pack.reader;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.Id;
import org.faultwright.pack.yaml.YamlText;

/** The fragments in the jar of shared vocabulary; its {@code index.txt} lists their names. */
final class SharedFragments implements Fragments {

  private static final String FOLDER = "org/faultwright/shared/vocabulary/";

  @Override
  public Optional<YamlText> find(String name) {
    if (!Id.isWellSpelt(name)) {
      return Optional.empty();
    }
    try (InputStream in = open(name + ".yaml")) {
      return in == null
          ? Optional.empty()
          : Optional.of(YamlText.read("shared/vocabulary/" + name + ".yaml", in));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public List<String> names() {
    try (InputStream in = open("index.txt")) {
      return in == null
          ? List.of()
          : new String(in.readAllBytes(), StandardCharsets.UTF_8)
              .lines()
              .map(String::strip)
              .filter(Id::isWellSpelt)
              .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static InputStream open(String name) {
    return SharedFragments.class.getClassLoader().getResourceAsStream(FOLDER + name);
  }
}
