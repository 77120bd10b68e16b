package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * Runs a copy of the launcher in a tree of its own, with a Java and a Maven that only note how they
 * were called: what is tried here is the script, not the build.
 */
@DisabledOnOs(OS.WINDOWS)
class LauncherTest {
  private record Result(int exitCode, String out, String err) {}

  @TempDir private Path temp;

  private Path root;
  private Path launcher;
  private Path tools;
  private Path calls;

  @BeforeEach
  void plantTree() throws IOException {
    root = temp.resolve("a clone with spaces");
    launcher = root.resolve("examples/cli/faultwright");
    tools = temp.resolve("tools");
    calls = temp.resolve("calls");
    for (String folder :
        List.of("engine/src/main", "packs", "shared", "examples/cli/src/main", "examples/cases")) {
      Files.createDirectories(root.resolve(folder));
    }
    for (String pom : List.of("pom.xml", "engine/pom.xml", "examples/cli/pom.xml")) {
      Files.writeString(root.resolve(pom), "<project/>");
    }
    Files.createDirectories(tools);
    Files.writeString(calls, "");
    Files.copy(Path.of("faultwright"), launcher);
    // The commands that the script itself uses, and nothing else of this machine.
    for (String name :
        List.of(
            "sed",
            "head",
            "tail",
            "grep",
            "find",
            "mkdir",
            "mv",
            "cp",
            "rm",
            "ls",
            "cat",
            "date",
            "sleep",
            "readlink")) {
      tool(name, "exec %s \"$@\"".formatted(whereIs(name)));
    }
    tool("javac", "exit 0");
    javaOfVersion("17.0.15");
    tool(
        "mvn",
        """
        echo "mvn $*" >>'%1$s'
        cd '%2$s' && mkdir -p shared/target packs/target engine/target
        cd examples/cli && mkdir -p target/lib && echo jar >target/faultwright-cli-1.jar
        """
            .formatted(calls, root));
  }

  @Test
  void buildsOnce_whenRunTwice() throws Exception {
    for (Path folder : List.of(root.resolve("shared"), root.resolve("packs"))) {
      Files.setLastModifiedTime(folder, FileTime.from(Instant.now().minusSeconds(60)));
    }
    Result first = launch("packs", "two words");
    assertThat(first.err()).contains("building for first use").contains("build.log");
    assertThat(first.out()).isEqualTo("ran [packs] [two words]\n");
    assertThat(first.exitCode()).isEqualTo(7);

    Result second = launch("packs");
    assertThat(second.err()).isEmpty();
    assertThat(second.out()).isEqualTo("ran [packs]\n");
    assertThat(callsOf("mvn")).hasSize(1);
    assertThat(callsOf("dump")).hasSize(1);
  }

  @Test
  void buildsAgain_whenASourceIsNewer() throws Exception {
    launch();
    Path pack = Files.writeString(root.resolve("packs/pack.yaml"), "pack: a/b");
    Files.setLastModifiedTime(pack, FileTime.from(Instant.now().plusSeconds(5)));
    assertThat(launch().err()).contains("building");
    assertThat(callsOf("mvn")).hasSize(2);
  }

  @Test
  void makesANewArchive_whenJavaChanges() throws Exception {
    launch();
    javaOfVersion("21");
    assertThat(launch().err()).isEmpty();
    assertThat(callsOf("mvn")).hasSize(1);
    assertThat(callsOf("dump")).hasSize(2);
  }

  @Test
  void works_whenCalledThroughASymbolicLink() throws Exception {
    Path link =
        Files.createSymbolicLink(temp.resolve("fw"), Path.of(root.getFileName().toString()))
            .resolve("examples/cli/faultwright");
    Path linkToLink = Files.createSymbolicLink(temp.resolve("short"), link);
    assertThat(run(linkToLink, List.of("x")).out()).isEqualTo("ran [x]\n");
    assertThat(root.resolve("examples/cli/target/launcher/current")).exists();
  }

  @Test
  void saysWhatIsMissing_whenThereIsNoJava() throws Exception {
    Files.delete(tools.resolve("java"));
    Result result = launch();
    assertThat(result)
        .isEqualTo(
            new Result(
                2,
                "",
                "faultwright: no Java was found; install a JDK 17 or newer and put its java on the"
                    + " PATH, or set JAVA_HOME.\n"));
  }

  @Test
  void saysWhatIsMissing_whenJavaIsTooOld() throws Exception {
    javaOfVersion("11.0.2");
    assertThat(launch())
        .isEqualTo(
            new Result(
                2,
                "",
                "faultwright: Java 17 or newer is needed, but %s is version 11; set JAVA_HOME to a newer JDK.\n"
                    .formatted(tools.resolve("java"))));
  }

  @Test
  void saysBoth_whenCompilerAndMavenAreMissing() throws Exception {
    Files.delete(tools.resolve("javac"));
    Files.delete(tools.resolve("mvn"));
    Result result = launch();
    assertThat(result.exitCode()).isEqualTo(2);
    assertThat(result.out()).isEmpty();
    assertThat(result.err().lines())
        .containsExactly(
            "faultwright: there is a Java here but no compiler (javac); install a JDK 17 or newer,"
                + " not only a run-time environment.",
            "faultwright: Maven (mvn) was not found; install Maven 3.8 or newer and put it on the"
                + " PATH.");
  }

  @Test
  void showsTheErrorsAndTheLog_whenTheBuildFails() throws Exception {
    tool("mvn", "echo '[INFO] noise'; echo '[ERROR] no such artifact'; exit 1");
    Result result = launch();
    assertThat(result.exitCode()).isEqualTo(3);
    assertThat(result.out()).isEmpty();
    assertThat(result.err())
        .contains("[ERROR] no such artifact")
        .doesNotContain("noise")
        .contains("the whole log is in " + root.resolve("examples/cli/target/build.log"));
    assertThat(root.resolve("examples/cli/target/launcher.lock")).doesNotExist();
  }

  @Test
  void buildsOnce_whenTwoShellsStartTogether() throws Exception {
    // The build of the first ends only when the second has said that it waits.
    Path waits = temp.resolve("waits");
    tool(
        "mvn",
        """
        echo "mvn $*" >>'%1$s'
        n=0; until grep -q 'waiting' '%3$s' || [ $((n+=1)) -gt 5000 ]; do :; done
        cd '%2$s/examples/cli' && mkdir -p target/lib && echo jar >target/faultwright-cli-1.jar
        """
            .formatted(calls, root, waits));
    Files.writeString(waits, "");
    Process one = start(launcher, List.of("one"), ProcessBuilder.Redirect.appendTo(waits.toFile()));
    Process two = start(launcher, List.of("two"), ProcessBuilder.Redirect.appendTo(waits.toFile()));
    assertThat(new String(one.getInputStream().readAllBytes(), UTF_8)).isEqualTo("ran [one]\n");
    assertThat(new String(two.getInputStream().readAllBytes(), UTF_8)).isEqualTo("ran [two]\n");
    assertThat(callsOf("mvn")).hasSize(1);
  }

  @Test
  void takesOver_whenALockWasLeftBehind() throws Exception {
    Process gone = new ProcessBuilder("true").start();
    gone.waitFor();
    Path lock = Files.createDirectories(root.resolve("examples/cli/target/launcher.lock"));
    Files.writeString(lock.resolve("owner"), gone.pid() + "\n");
    assertThat(launch("x").out()).isEqualTo("ran [x]\n");
    assertThat(lock).doesNotExist();
  }

  private Result launch(String... args) throws Exception {
    return run(launcher, List.of(args));
  }

  private Result run(Path script, List<String> args) throws Exception {
    Path err = Files.createTempFile(temp, "err", "");
    Process process = start(script, args, ProcessBuilder.Redirect.to(err.toFile()));
    String out = new String(process.getInputStream().readAllBytes(), UTF_8);
    return new Result(process.waitFor(), out, Files.readString(err));
  }

  private Process start(Path script, List<String> args, ProcessBuilder.Redirect err)
      throws IOException {
    List<String> command = new ArrayList<>(List.of(script.toString()));
    command.addAll(args);
    ProcessBuilder builder =
        new ProcessBuilder(command).directory(temp.toFile()).redirectError(err);
    builder.environment().clear();
    builder.environment().put("PATH", tools.toString());
    return builder.start();
  }

  /** A Java that answers with its version, dumps an empty archive, or says what it would run. */
  private void javaOfVersion(String version) throws IOException {
    tool(
        "java",
        """
        case "$*" in
          *-version*) echo 'openjdk version "%1$s" 2025-04-15' >&2; exit 0 ;;
          *-Xshare:dump*) echo "dump" >>'%2$s'; exit 0 ;;
          *DumpLoadedClassList*) exit 0 ;;
        esac
        while [ "$1" != -jar ]; do shift; done
        shift 2
        printf ran
        for word in "$@"; do printf ' [%%s]' "$word"; done
        echo
        exit 7
        """
            .formatted(version, calls));
  }

  private void tool(String name, String body) throws IOException {
    Path file = tools.resolve(name);
    Files.deleteIfExists(file);
    Files.writeString(file, "#!/bin/sh\n" + body + "\n");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwxr-xr-x"));
  }

  private List<String> callsOf(String name) throws IOException {
    return Files.readAllLines(calls).stream().filter(line -> line.startsWith(name)).toList();
  }

  private static Path whereIs(String name) {
    for (String folder : System.getenv("PATH").split(":")) {
      Path file = Path.of(folder, name);
      if (Files.isExecutable(file)) {
        return file;
      }
    }
    throw new AssertionError("this machine has no " + name);
  }
}
