using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Stillhook.App.Serving;

/// <summary>Codes by which a screen on the network is let in to the ground page: each opens one screen, until the program ends.</summary>
/// <remarks>Wrong codes are slowed down: after five of them nobody is let in for a minute.</remarks>
public sealed class OneTimeCodes(TimeProvider clock)
{
    private const int Tries = 5;
    private static readonly TimeSpan Pause = TimeSpan.FromMinutes(1);
    private readonly Lock gate = new();
    private readonly HashSet<string> screens = new(StringComparer.Ordinal);
    private int wrong;
    private DateTimeOffset closedUntil = DateTimeOffset.MinValue;

    /// <summary>The code that opens the next screen: eight digits.</summary>
    public string Code { get; private set; } = New();

    /// <summary>Told when a code was used and the next one stands.</summary>
    public event Action<string>? Changed;

    /// <summary>A screen's key for a code; null when the code is wrong or too many were.</summary>
    public string? Open(string? code)
    {
        string key = Convert.ToBase64String(RandomNumberGenerator.GetBytes(32));
        lock (gate)
        {
            DateTimeOffset now = clock.GetUtcNow();
            if (now < closedUntil)
                return null;
            string typed = (code ?? "").Replace(" ", "", StringComparison.Ordinal);
            if (!CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(typed), Encoding.UTF8.GetBytes(Code)))
            {
                if (++wrong % Tries == 0)
                    closedUntil = now + Pause;
                return null;
            }
            wrong = 0;
            screens.Add(key);
            Code = New();
        }
        Changed?.Invoke(Code);
        return key;
    }

    /// <summary>Whether a screen was let in.</summary>
    public bool IsOpen(string? key)
    {
        lock (gate)
            return key is not null && screens.Contains(key);
    }

    private static string New() => RandomNumberGenerator.GetInt32(0, 100_000_000).ToString("00000000", CultureInfo.InvariantCulture);
}
