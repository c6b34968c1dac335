using System.Globalization;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Browser;

/// <summary>What field notes say, beside the window on the page.</summary>
[Trait("Category", "Browser")]
public class NotesTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task The_window_says_by_how_much_first_and_last_light_were_off_here_and_at_all_lookouts_as_the_service_reckons_it()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        // By hand: 40 s and 80 s have the mean 60 s and the spread √800 s ≈ 28 s; with −60 s beside them the mean 20 s and √5200 s ≈ 72 s.
        await NoteAsync(client, MadeValley.Plan(), "firstLight", "start", 40, 80);
        await NoteAsync(client, Elsewhere(), "firstLight", "start", -60);
        await NoteAsync(client, Elsewhere(), "lastLight", "end", -90);

        var forecast = await ForecastAsync(client, MadeValley.Plan());
        Assert.Equal(
            ["first light", "here 1 min 00 s later than forecast ± 28 s (2 notes); at all lookouts 20 s later than forecast ± 1 min 12 s (3 notes)",
             "last light", "at all lookouts 1 min 30 s earlier than forecast (1 note)"],
            await SaidAsync(forecast));
    }

    [FactNeeds<Chromium>]
    public async Task Notes_of_this_lookout_alone_are_said_once_and_without_any_there_is_no_such_line()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        Assert.Empty(await SaidAsync(await ForecastAsync(client, MadeValley.Plan())));
        await NoteAsync(client, MadeValley.Plan(), "firstLight", "start", 0);
        Assert.Equal(["first light", "here as forecast (1 note)"], await SaidAsync(await ForecastAsync(client, MadeValley.Plan())));
    }

    private static JsonObject Elsewhere()
    {
        var plan = MadeValley.Plan();
        plan["lookout"]!["latitudeDeg"] = 46.51;
        return plan;
    }

    private static async Task<JsonNode> ForecastAsync(HttpClient client, JsonNode plan) =>
        await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts?pictures=true", plan).JsonAsync();

    /// <summary>A note for each number of seconds by which an edge of the first window was seen after it was forecast.</summary>
    private static async Task NoteAsync(HttpClient client, JsonNode plan, string seen, string edge, params int[] lateS)
    {
        using var posted = await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", plan);
        var forecast = await posted.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        var address = posted.Content.Headers.ContentLocation!.OriginalString.Split('/')[^1];
        var at = DateTimeOffset.Parse(JsonNode.Parse(forecast)!["windows"]![0]![edge]!.GetValue<string>(), CultureInfo.InvariantCulture);
        foreach (var late in lateS)
        {
            using var noted = await client.SendJsonAsync(HttpMethod.Post, "/api/notes", new JsonObject { ["forecast"] = address, [seen] = at.AddSeconds(late).ToString("O") });
            noted.EnsureSuccessStatusCode();
        }
    }

    /// <summary>Names and facts under the heading of field notes.</summary>
    private async Task<string[]> SaidAsync(JsonNode answer)
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        return await page.Tab.EvaluateFunctionAsync<string[]>(
            """
            async text => {
              const { forecastOf } = await import('/think/forecast.js');
              const { windowsView } = await import('/views/notes.js');
              const seen = windowsView(forecastOf(JSON.parse(text))).find(section => section.firstChild.textContent === 'By field notes');
              return seen ? [...seen.querySelectorAll('dt, dd')].map(part => part.textContent) : [];
            }
            """, answer.ToJsonString());
    }
}
