using Glowcast.Server;

// The bare service, without a grid; the command line's serve gives it some.
await ServerHost.Build(new ServerOptions()).RunAsync();
