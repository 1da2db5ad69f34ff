# The service as an image. Not tried where no container engine runs, which is where it was written.
FROM rust:1.95.0-slim-bookworm AS build
WORKDIR /src
COPY . .
# The image's own toolchain is the pinned one; naming it keeps rustup from fetching more.
RUN --mount=type=cache,target=/usr/local/cargo/registry \
    --mount=type=cache,target=/src/target \
    RUSTUP_TOOLCHAIN="$RUST_VERSION" cargo build --release --locked --bin arcbounds \
    && cp target/release/arcbounds /usr/local/bin/arcbounds

FROM debian:bookworm-slim
# Root certificates, for a database or an identity provider behind TLS.
RUN apt-get update \
    && apt-get install -y --no-install-recommends ca-certificates \
    && rm -rf /var/lib/apt/lists/* \
    && useradd --system --uid 10001 --no-create-home --shell /usr/sbin/nologin arcbounds
COPY --from=build /usr/local/bin/arcbounds /usr/local/bin/arcbounds
USER 10001
EXPOSE 8080
HEALTHCHECK --interval=10s --timeout=3s --start-period=20s --retries=3 CMD ["arcbounds", "health"]
ENTRYPOINT ["arcbounds"]
CMD ["serve"]
