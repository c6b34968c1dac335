using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Server.Answers;
using Glowcast.Server.Problems;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace Glowcast.Server.Takes;

/// <summary>Reads the beginnings of picture files that a page sends: there the camera writes what it has to say.</summary>
internal static class FrameHeads
{
    /// <summary>Of one file; a page sends no more of it.</summary>
    public const int MostBytes = 512 << 10;

    /// <summary>At once.</summary>
    public const int MostFiles = 64;

    /// <summary>Of one request: the files and the lines between them.</summary>
    public const long MostBytesInAll = ((long)MostFiles * (MostBytes + 1024)) + 1024;

    private const int LongestBoundary = 100;
    private const int LongestName = 500;

    /// <exception cref="BadInputException">It is no form of files, or has too many or too long ones.</exception>
    /// <exception cref="BadHttpRequestException">It is of another kind.</exception>
    /// <param name="reading">Whose turn it is to read a picture that has arrived.</param>
    public static async Task<FrameHeadsAnswer> ReadAsync(HttpRequest request, Turns reading, CancellationToken cancel)
    {
        if (!MediaTypeHeaderValue.TryParse(request.ContentType, out var type) || !type.MediaType.Equals("multipart/form-data", StringComparison.OrdinalIgnoreCase))
            throw new BadHttpRequestException("Send the beginnings of the files as multipart/form-data, each as a file with its name.", StatusCodes.Status415UnsupportedMediaType);
        var boundary = HeaderUtilities.RemoveQuotes(type.Boundary).Value;
        if (boundary is not { Length: > 0 and <= LongestBoundary }) throw new BadInputException("body", "Lacks a boundary between its parts (RFC 7578), or has one that is too long.");
        var (frames, skipped) = (new List<PostedFrame>(), new List<SkippedFileAnswer>());
        try
        {
            var parts = new MultipartReader(boundary, request.Body) { HeadersCountLimit = 8, HeadersLengthLimit = 4096 };
            while (await parts.ReadNextSectionAsync(cancel) is { } part)
            {
                if (frames.Count + skipped.Count == MostFiles) throw new BadInputException("files", $"Are more than {MostFiles}; send them in several requests.");
                var (name, head) = (NameOf(part), await HeadAsync(part, cancel));
                using var turn = await reading.TakeAsync(cancel);
                Read(name, head, frames, skipped);
            }
        }
        catch (Exception broken) when (broken is InvalidDataException || (broken is IOException && broken is not BadHttpRequestException))
        {
            throw new BadInputException("body", "Is no whole form of files (RFC 7578).");
        }
        return frames.Count + skipped.Count > 0 ? new FrameHeadsAnswer(frames, skipped) : throw new BadInputException("files", "Are none; send the beginning of one picture at least.");
    }

    private static void Read(string name, MemoryStream head, List<PostedFrame> frames, List<SkippedFileAnswer> skipped)
    {
        try
        {
            frames.Add(PostedFrame.Of(FrameReader.Read(head, name)));
        }
        catch (BadInputException bad)
        {
            skipped.AddRange(bad.Faults.Select(fault => new SkippedFileAnswer(fault.Field, fault.Message)));
        }
    }

    private static string NameOf(MultipartSection part)
    {
        var disposition = part.GetContentDispositionHeader();
        var name = HeaderUtilities.RemoveQuotes(disposition?.FileNameStar is { HasValue: true } star ? star : disposition?.FileName ?? default).Value;
        return name is { Length: > 0 and <= LongestName } ? name : throw new BadInputException("files", $"Each needs a name of 1 to {LongestName} characters.");
    }

    private static async Task<MemoryStream> HeadAsync(MultipartSection part, CancellationToken cancel)
    {
        var head = new byte[MostBytes + 1];
        var length = await part.Body.ReadAtLeastAsync(head, head.Length, throwOnEndOfStream: false, cancel);
        return length <= MostBytes ? new MemoryStream(head, 0, length, writable: false) : throw new BadHttpRequestException($"A file has more than {MostBytes} bytes here; send its beginning only.", StatusCodes.Status413PayloadTooLarge);
    }
}

/// <summary>What the beginnings of files say.</summary>
/// <param name="Frames">As they are to be posted for sorting, in the order they were sent.</param>
/// <param name="Skipped">Files that cannot be read, and why.</param>
internal sealed record FrameHeadsAnswer(IReadOnlyList<PostedFrame> Frames, IReadOnlyList<SkippedFileAnswer> Skipped);
