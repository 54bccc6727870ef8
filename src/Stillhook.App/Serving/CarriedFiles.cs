using System.IO.Compression;
using System.Reflection;
using System.Security.Cryptography;

namespace Stillhook.App.Serving;

/// <summary>Stylesheet and scripts, carried inside the program so that it runs from any folder. Addresses hold a digest, so browsers may keep them for ever.</summary>
internal static class CarriedFiles
{
    private static readonly Dictionary<string, Asset> All = new[] { "site.css", "js/pages.css", "js/pages.js", "js/three-view.js" }.ToDictionary(name => name, Load);

    /// <summary>Address of a file with its digest.</summary>
    public static string Address(string name) => $"/assets/{All[name].Digest}/{name}";

    /// <summary>Serves the files.</summary>
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/assets/{digest}/{**name}", (string digest, string name, HttpContext http) =>
        {
            if (!All.TryGetValue(name, out Asset? asset) || asset.Digest != digest)
                return Results.NotFound();
            http.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
            http.Response.Headers.Vary = "Accept-Encoding";
            if (!http.Request.Headers.AcceptEncoding.ToString().Contains("br", StringComparison.Ordinal))
                return Results.Bytes(asset.Plain, asset.ContentType);
            http.Response.Headers.ContentEncoding = "br";
            return Results.Bytes(asset.Packed.Value, asset.ContentType);
        }).AllowAnonymous();

    private static Asset Load(string name)
    {
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("wwwroot/" + name)
            ?? throw new InvalidOperationException($"The program was built without wwwroot/{name}.");
        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        string type = name.EndsWith(".css", StringComparison.Ordinal) ? "text/css; charset=utf-8" : "text/javascript; charset=utf-8";
        return new(bytes, new(() => Pack(bytes)), type, Convert.ToHexStringLower(SHA256.HashData(bytes))[..12]);
    }

    private static byte[] Pack(byte[] bytes)
    {
        using MemoryStream packed = new();
        using (BrotliStream brotli = new(packed, CompressionLevel.Optimal, leaveOpen: true))
            brotli.Write(bytes);
        return packed.ToArray();
    }

    private sealed record Asset(byte[] Plain, Lazy<byte[]> Packed, string ContentType, string Digest);
}
