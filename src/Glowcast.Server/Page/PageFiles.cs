using Microsoft.Extensions.FileProviders;

namespace Glowcast.Server.Page;

/// <summary>Serves the page out of the assembly.</summary>
internal static class PageFiles
{
    public static void UsePage(this IApplicationBuilder app)
    {
        var files = new BareFiles(new ManifestEmbeddedFileProvider(typeof(PageFiles).Assembly, "wwwroot"));
        app.UseDefaultFiles(new DefaultFilesOptions { FileProvider = files });
        app.UseStaticFiles(new StaticFileOptions
        {
            FileProvider = files,
            // Asked again each time, and answered "not modified" by its ETag.
            OnPrepareResponse = file => file.Context.Response.Headers.CacheControl = "no-cache",
        });
    }
}
