package org.faultwright.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command line of Faultwright: results go to standard output, all else to standard error. */
@Command(
    name = "faultwright",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Finds the fault in a device on the bench, one step at a time.",
    synopsisSubcommandLabel = "COMMAND",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:All is well.",
      "1:Something was found: a problem in a file, or a case that did not end as expected.",
      "2:The command was not understood, or something it needs is missing.",
      "3:A fault of Faultwright itself; please report what it printed."
    })
public final class Main implements Runnable {

  /** Set by the launcher when a person looks at standard output: the JVM itself cannot tell. */
  private static final String TERMINAL = "faultwright.terminal";

  /** Set by the launcher when standard input is a terminal. */
  private static final String KEYBOARD = "faultwright.keyboard";

  /** Commands that need the rules: those that read a case. */
  private static final Set<String> DIAGNOSING =
      Set.of("diagnose", "plan", "suppose", "converse", "check", "pins");

  @Spec private CommandSpec spec;

  /** Creates the command; {@link #main} is the usual way in. */
  Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    // JSON is UTF-8 by definition, and text is ASCII where the terminal does not know UTF-8.
    PrintWriter out = writer(FileDescriptor.out);
    PrintWriter err = writer(FileDescriptor.err);
    boolean terminal = System.getProperty(TERMINAL, "").equals("yes");
    boolean keyboard = System.getProperty(KEYBOARD, "").equals("yes");
    int exitCode =
        run(new Surroundings(System.in, out, err, System.getenv(), terminal, keyboard), args);
    out.flush();
    err.flush();
    System.exit(exitCode);
  }

  /** Runs one command. */
  static int run(Surroundings surroundings, String... args) {
    if (args.length > 0 && DIAGNOSING.contains(args[0])) {
      Ahead.loadRules();
    }
    try {
      return isOneCaseAlone(args)
          ? Diagnose.of(surroundings, args[1]).call()
          : parsed(surroundings, args);
    } catch (RuntimeException | Error e) { // picocli lets errors through: the exit code would be 1
      return explain(e, surroundings);
    }
  }

  /**
   * The commonest call: a case, and no options. It takes no parsing, and to look at the options of
   * a command takes a tenth of the time that a diagnosis takes.
   */
  private static boolean isOneCaseAlone(String... args) {
    return args.length == 2
        && args[0].equals("diagnose")
        && !args[1].isEmpty()
        && (args[1].equals(Sources.STANDARD_INPUT) || "-@".indexOf(args[1].charAt(0)) < 0);
  }

  private static int parsed(Surroundings surroundings, String... args) {
    CommandLine command = withCommands(new CommandLine(new Main()), surroundings, args);
    command
        .setOut(surroundings.out())
        .setErr(surroundings.err())
        .setUsageHelpAutoWidth(false)
        .setUsageHelpWidth(Math.max(55, surroundings.screen().width()))
        .setColorScheme(
            CommandLine.Help.defaultColorScheme(
                surroundings.screen().colour() ? Ansi.ON : Ansi.OFF))
        .setParameterExceptionHandler((e, wrong) -> explainUsage(e))
        .setExecutionExceptionHandler((e, failed, parsed) -> explain(e, surroundings));
    return command.execute(args);
  }

  /** Only the command that is called for, where one is: to look at all takes time. */
  private static CommandLine withCommands(
      CommandLine command, Surroundings surroundings, String... args) {
    Map<String, Function<Surroundings, Object>> commands = new LinkedHashMap<>();
    commands.put("diagnose", Diagnose::new);
    commands.put("plan", PlanCase::new);
    commands.put("suppose", Suppose::new);
    commands.put("converse", Converse::new);
    commands.put("lint", Lint::new);
    commands.put("check", Check::new);
    commands.put("packs", Packs::new);
    commands.put("tree", Tree::new);
    commands.put("network", Network::new);
    commands.put("pins", Pins::new);
    commands.put("reference", References::new);
    if (args.length > 0 && commands.containsKey(args[0])) {
      commands.keySet().retainAll(Set.of(args[0]));
    }
    commands.forEach((name, made) -> command.addSubcommand(name, made.apply(surroundings)));
    return command;
  }

  /** Without a command there is nothing to do but to show which ones there are. */
  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "which command? See the list below.");
  }

  private static int explainUsage(ParameterException e) {
    CommandLine command = e.getCommandLine();
    PrintWriter err = command.getErr();
    err.println("faultwright: " + e.getMessage());
    if (!CommandLine.UnmatchedArgumentException.printSuggestions(e, err)) {
      command.usage(err, Ansi.OFF);
    }
    return ExitCode.USAGE;
  }

  private static int explain(Throwable e, Surroundings surroundings) {
    if (e instanceof Stopped stopped) {
      return stopped.tell(surroundings);
    }
    PrintWriter err = surroundings.err();
    err.println("faultwright: a fault of our own; please report the lines below.");
    e.printStackTrace(err);
    return ExitCode.OWN_FAULT;
  }

  private static PrintWriter writer(FileDescriptor descriptor) {
    return new PrintWriter(new FileOutputStream(descriptor), false, StandardCharsets.UTF_8);
  }
}
