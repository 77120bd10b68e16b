package org.faultwright.readme;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.JavaCompiler;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The README's Java example compiles as it stands and prints an answer. */
class ReadmeExampleTest {

  private static final Path README = Path.of("..", "README.md");

  @Test
  void example_printsTheLeaderAndTheNextStep(@TempDir Path folder) throws Exception {
    String example = javaBlock(Files.readString(README));
    assertThat(example.lines().count()).as("lines of the example").isLessThanOrEqualTo(11);
    Path source = folder.resolve("Example.java");
    Files.writeString(
        source,
        """
        import org.faultwright.casefile.*;
        import org.faultwright.diagnosis.*;
        import org.faultwright.pack.*;
        import org.faultwright.pack.reader.*;
        public class Example {
          public static void main(String[] args) {
        """
            + example
            + "}}");
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    ByteArrayOutputStream errors = new ByteArrayOutputStream();
    int code =
        compiler.run(
            null,
            null,
            errors,
            "-proc:none",
            "-cp",
            classPath(),
            "-d",
            folder.toString(),
            source.toString());
    assertThat(code).as(errors.toString(StandardCharsets.UTF_8)).isZero();
    List<String> printed = run(folder).lines().toList();
    // Lint seen in the port: the pack's own case says that it leads.
    assertThat(printed.get(0)).matches("lint-in-port \\d\\d %");
    assertThat(printed.get(1)).matches("[A-Z_]+ [a-z-]+");
  }

  private static String run(Path folder) throws Exception {
    PrintStream before = System.out;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    try (URLClassLoader loader =
        new URLClassLoader(
            new URL[] {folder.toUri().toURL()}, ReadmeExampleTest.class.getClassLoader())) {
      System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
      loader
          .loadClass("Example")
          .getMethod("main", String[].class)
          .invoke(null, (Object) new String[0]);
    } finally {
      System.setOut(before);
    }
    return printed.toString(StandardCharsets.UTF_8);
  }

  /**
   * Surefire may hide the class path behind a manifest; the locations of the classes used say where
   * they are.
   */
  private static String classPath() throws Exception {
    String stated = System.getProperty("surefire.test.class.path", "");
    return stated.isEmpty() ? System.getProperty("java.class.path") : stated;
  }

  private static String javaBlock(String readme) {
    Matcher block = Pattern.compile("```java\\n(.*?)```", Pattern.DOTALL).matcher(readme);
    assertThat(block.find()).as("a java block in the README").isTrue();
    return block.group(1);
  }
}
