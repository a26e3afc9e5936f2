package org.splicebook.web;

import io.javalin.http.Handler;
import io.javalin.http.HandlerType;

/** One path, what may be done there, and what does it. */
record Route(HandlerType method, String path, Handler handler) {
    /** {@return whether its path names a house} */
    boolean isOfAHouse() {
        return path.contains("{house}");
    }

    /** {@return whether its path names a property} */
    boolean isOfAProperty() {
        return path.contains("{property}");
    }

    static Route get(String path, Handler handler) {
        return new Route(HandlerType.GET, path, handler);
    }

    static Route put(String path, Handler handler) {
        return new Route(HandlerType.PUT, path, handler);
    }

    static Route post(String path, Handler handler) {
        return new Route(HandlerType.POST, path, handler);
    }

    static Route delete(String path, Handler handler) {
        return new Route(HandlerType.DELETE, path, handler);
    }
}
