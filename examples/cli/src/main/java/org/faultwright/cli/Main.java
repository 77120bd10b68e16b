package org.faultwright.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/**
 * The command line of Faultwright: results go to standard output, all else to standard error.
 *
 * <p>Colours follow the terminal and {@code NO_COLOR}, which picocli heeds.
 */
@Command(
    name = "faultwright",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Finds the fault in a device on the bench, one step at a time.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:All is well.",
      "1:Something was found: a problem in a file, or a case that did not end as expected.",
      "2:The command was not understood, or something it needs is missing.",
      "3:A fault of Faultwright itself; please report what it printed."
    })
public final class Main implements Runnable {
  @Spec private CommandSpec spec;

  /** Creates the command; {@link #main} is the usual way in. */
  Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    // JSON is UTF-8 by definition, and a bar in a ranking must not turn into question marks because
    // a container has no locale set.
    PrintWriter out = writer(FileDescriptor.out);
    PrintWriter err = writer(FileDescriptor.err);
    int exitCode = run(out, err, args);
    out.flush();
    err.flush();
    System.exit(exitCode);
  }

  /** Runs one command with its results on {@code out} and everything else on {@code err}. */
  static int run(PrintWriter out, PrintWriter err, String... args) {
    CommandLine command =
        new CommandLine(new Main())
            .setOut(out)
            .setErr(err)
            .setParameterExceptionHandler(Main::explainUsage)
            .setExecutionExceptionHandler((e, failed, parsed) -> reportOwnFault(e, err));
    try {
      return command.execute(args);
    } catch (Error e) { // picocli handles exceptions only, and a virtual machine would end with 1
      return reportOwnFault(e, err);
    }
  }

  /** Without a command there is nothing to do but to show which ones there are. */
  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "which command? See the list below.");
  }

  private static int explainUsage(ParameterException e, String[] args) {
    CommandLine command = e.getCommandLine();
    PrintWriter err = command.getErr();
    err.println("faultwright: " + e.getMessage());
    if (!CommandLine.UnmatchedArgumentException.printSuggestions(e, err)) {
      command.usage(err);
    }
    return ExitCode.USAGE;
  }

  private static int reportOwnFault(Throwable e, PrintWriter err) {
    err.println("faultwright: a fault of our own; please report the lines below.");
    e.printStackTrace(err);
    return ExitCode.OWN_FAULT;
  }

  private static PrintWriter writer(FileDescriptor descriptor) {
    return new PrintWriter(new FileOutputStream(descriptor), false, StandardCharsets.UTF_8);
  }
}
