package org.splicebook.store;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentSkipListMap;

/** Files of tests, in memory. */
public final class MemoryFiles implements Files {
    private final Map<String, byte[]> kept = new ConcurrentSkipListMap<>();

    @Override
    public String keep(byte[] content) {
        String name = FolderFiles.hash(content);
        kept.put(name, content.clone());
        return name;
    }

    @Override
    public Optional<byte[]> find(String name) {
        return Optional.ofNullable(kept.get(name));
    }

    @Override
    public List<String> list() {
        return List.copyOf(kept.keySet());
    }
}
