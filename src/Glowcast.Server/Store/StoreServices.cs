namespace Glowcast.Server.Store;

/// <summary>What keeps things for the service: SQLite and files. Another keeper takes its place here.</summary>
internal static class StoreServices
{
    /// <param name="folder">Null for a passing one.</param>
    /// <exception cref="Engine.Measures.BadInputException">It cannot be used.</exception>
    public static void AddStore(this IServiceCollection services, string? folder)
    {
        // Opened before the service is built, so that a folder that cannot be used is said at once; made by a factory, so that it is closed with the service.
        var data = DataFolder.Open(folder);
        services.AddSingleton(_ => data);
        services.AddSingleton<IDocuments>(provider => new SqliteDocuments(provider.GetRequiredService<DataFolder>().Database));
        services.AddSingleton<IGrids>(provider =>
        {
            var grids = new SqliteGrids(provider.GetRequiredService<DataFolder>());
            grids.Tidy();
            return grids;
        });
    }
}
