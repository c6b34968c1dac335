using NodaTime;

namespace Glowcast.Server.Store;

/// <summary>What keeps things for the service: SQLite and files. Another keeper takes its place here.</summary>
internal static class StoreServices
{
    /// <exception cref="Engine.Measures.BadInputException">The data folder cannot be used.</exception>
    public static void AddStore(this IServiceCollection services, ServerOptions options)
    {
        // Opened before the service is built, so that a folder that cannot be used is said at once; made by a factory, so that it is closed with the service.
        var folder = DataFolder.Open(options.DataFolder);
        services.AddSingleton(_ => folder);
        services.AddSingleton<IClock>(SystemClock.Instance);
        services.AddSingleton<IDocuments>(provider => new SqliteDocuments(Database(provider)));
        services.AddSingleton<IFieldNotes>(provider => new SqliteFieldNotes(Database(provider)));
        services.AddSingleton<IJobs>(provider => new SqliteJobs(Database(provider), options.MostWaitingJobs));
        services.AddSingleton<ITokens>(provider => new SqliteTokens(Database(provider)));
        services.AddSingleton<ICache>(provider => new SqliteCache(Database(provider), provider.GetRequiredService<IClock>(), options.MostCachedBytes));
        services.AddSingleton<IGrids>(provider => new SqliteGrids(provider.GetRequiredService<DataFolder>()));
        services.AddSingleton<FolderCare>();
    }

    private static Database Database(IServiceProvider provider) => provider.GetRequiredService<DataFolder>().Database;
}
