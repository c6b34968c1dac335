var app = WebApplication.Create(args);
app.MapGet("/health", () => "ok");
app.Run();
