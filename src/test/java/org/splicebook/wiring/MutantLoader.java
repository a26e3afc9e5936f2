package org.splicebook.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.tools.JavaCompiler;
import javax.tools.SimpleJavaFileObject;
import javax.tools.ToolProvider;

/** Defines the derivation, its tests and the oracle anew, some classes of them changed; all else is the program's own. */
final class MutantLoader extends ClassLoader {
    private static final List<String> OWN =
            List.of("org.splicebook.wiring.", "org.splicebook.oracle.", "org.splicebook.ask.");

    private final Path changed;

    /**
     * Makes a loader.
     *
     * @param changed the folder of changed classes
     */
    MutantLoader(Path changed) {
        super(MutantLoader.class.getClassLoader());
        this.changed = changed;
    }

    /** Compiles one class of the derivation, without annotation processors, against the others as they are. */
    static void compile(String name, String source, Path to) {
        JavaCompiler javac = ToolProvider.getSystemJavaCompiler();
        var file =
                new SimpleJavaFileObject(
                        URI.create("string:///org/splicebook/wiring/" + name + ".java"),
                        javax.tools.JavaFileObject.Kind.SOURCE) {
                    @Override
                    public CharSequence getCharContent(boolean ignoreEncodingErrors) {
                        return source;
                    }
                };
        StringWriter said = new StringWriter();
        List<String> options = List.of(
                "-proc:none",
                "-nowarn",
                "--release",
                "17",
                "-d",
                to.toString(),
                "-cp",
                System.getProperty("java.class.path"));
        boolean done =
                javac.getTask(said, null, null, options, null, List.of(file)).call();
        assertThat(done).as("%s compiles: %s", name, said).isTrue();
    }

    @Override
    protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
        if (OWN.stream().noneMatch(name::startsWith)) {
            return super.loadClass(name, resolve);
        }
        synchronized (getClassLoadingLock(name)) {
            Class<?> known = findLoadedClass(name);
            return known != null ? known : define(name);
        }
    }

    private Class<?> define(String name) throws ClassNotFoundException {
        String path = name.replace('.', '/') + ".class";
        Path own = changed.resolve(path);
        try (InputStream in =
                Files.exists(own) ? Files.newInputStream(own) : getParent().getResourceAsStream(path)) {
            if (in == null) {
                throw new ClassNotFoundException(name);
            }
            byte[] bytes = in.readAllBytes();
            return defineClass(name, bytes, 0, bytes.length);
        } catch (IOException e) {
            throw new ClassNotFoundException(name, e);
        }
    }
}
