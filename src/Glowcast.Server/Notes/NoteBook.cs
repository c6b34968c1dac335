using System.Text.Json;
using Glowcast.Server.Answers;
using Glowcast.Server.Store;
using NodaTime;

namespace Glowcast.Server.Notes;

/// <summary>The field notes of this service, and what they say together.</summary>
internal sealed class NoteBook(IFieldNotes kept)
{
    /// <param name="place">Of one lookout; null for all.</param>
    public async Task<IReadOnlyList<FieldNote>> AllAsync(string? place, CancellationToken cancel) =>
        [.. (await kept.AllAsync(place, cancel)).Select(Read)];

    public async Task<FieldNote?> FindAsync(string id, CancellationToken cancel) => await kept.FindAsync(id, cancel) is { } note ? Read(note) : null;

    /// <returns>False where there are as many as may be.</returns>
    public Task<bool> AddAsync(FieldNote note, Instant written, CancellationToken cancel) => kept.AddAsync(
        new KeptNote(note.Id, FieldNote.PlaceOf(note.LatitudeDeg, note.LongitudeDeg), JsonSerializer.Serialize(note, AnswerJson.Options), written), cancel);

    public Task<bool> DeleteAsync(string id, CancellationToken cancel) => kept.DeleteAsync(id, cancel);

    /// <summary>What stands beside a forecast; null while there are no notes at all.</summary>
    public async Task<FieldNotesAnswer?> SayAsync(double latitudeDeg, double longitudeDeg, CancellationToken cancel)
    {
        var all = await AllAsync(null, cancel);
        if (all.Count == 0) return null;
        var place = FieldNote.PlaceOf(latitudeDeg, longitudeDeg);
        var here = all.Where(note => FieldNote.PlaceOf(note.LatitudeDeg, note.LongitudeDeg) == place).ToList();
        return new FieldNotesAnswer(here.Count > 0 ? SeenAgainstForecast.Of(here) : null, SeenAgainstForecast.Of(all));
    }

    private static FieldNote Read(KeptNote note) => JsonSerializer.Deserialize<FieldNote>(note.Json, AnswerJson.Options)!;
}
