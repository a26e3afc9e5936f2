package org.splicebook.app;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.splicebook.cli.Commands;
import org.splicebook.cli.Terminal;

/** Where the program begins. */
public final class Main {
    private static final int USUAL_WIDTH = 80;

    private Main() {}

    /** Runs one command and ends with its exit code. */
    public static void main(String[] args) {
        Configuration configuration = new Configuration(System.getenv(), Path.of(System.getProperty("user.home", "")));
        Terminal terminal = new Terminal(to(FileDescriptor.out), to(FileDescriptor.err), width(), isAttended());
        System.exit(Commands.run(new Splicebook(configuration), terminal, args));
    }

    /** UTF-8 whatever the locale says: so are house files. */
    private static PrintWriter to(FileDescriptor stream) {
        return new PrintWriter(new OutputStreamWriter(new FileOutputStream(stream), StandardCharsets.UTF_8), true);
    }

    @SuppressWarnings("SystemConsoleNull") // On Java 17, which the build asks for, null says that nobody looks on.
    private static boolean isAttended() {
        return System.console() != null;
    }

    private static int width() {
        String columns = System.getenv("COLUMNS");
        return columns != null && columns.matches("[1-9][0-9]{1,3}") ? Integer.parseInt(columns) : USUAL_WIDTH;
    }
}
